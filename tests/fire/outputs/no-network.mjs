// Loaded before a program (`node --import`): whatever would speak over a network, or listen to one, is told in a file and fails.
import { appendFileSync } from "node:fs";
import { createRequire, syncBuiltinESMExports } from "node:module";

const require = createRequire(import.meta.url);
const told = /** @type {string} */ (process.env.FETTLE_NETWORK_TOLD);

/** @param {string} what */
const refuse = (what) => () => {
  appendFileSync(told, `${what}\n`);
  throw new Error(`${what} would leave this machine`);
};

const net = require("node:net");
net.Socket.prototype.connect = refuse("net.Socket.connect");
net.Server.prototype.listen = refuse("net.Server.listen");
const dgram = require("node:dgram");
dgram.createSocket = refuse("dgram.createSocket");
for (const dns of [require("node:dns"), require("node:dns").promises])
  for (const name of Object.keys(dns))
    if (/^(?:lookup|resolve|reverse)/.test(name) && typeof dns[name] === "function") dns[name] = refuse(`dns.${name}`);
for (const name of ["http", "https"]) {
  const module = require(`node:${name}`);
  module.request = refuse(`${name}.request`);
  module.get = refuse(`${name}.get`);
}
require("node:http2").connect = refuse("http2.connect");
require("node:tls").connect = refuse("tls.connect");
globalThis.fetch = refuse("fetch");
syncBuiltinESMExports();
