// The bundles: the entry of each, and where it runs.
import { readFileSync, writeFileSync } from "node:fs";
import { resolve } from "node:path";
import { inProject } from "./say.mjs";

// `import.meta.url` is empty in CommonJS output: it is defined as the bundle's own address.
const ownAddress = {
  banner: 'const importMetaUrl = require("node:url").pathToFileURL(__filename).href;',
  define: { "import.meta.url": "importMetaUrl" },
};

/** @type {import("esbuild").BuildOptions} */
const common = {
  absWorkingDir: inProject(),
  bundle: true,
  charset: "utf8",
  legalComments: "none",
  logLevel: "warning",
  metafile: true,
  target: "es2022",
};

/** @type {import("esbuild").BuildOptions} */
const forNode = {
  ...common,
  platform: "node",
  target: "node20",
  format: "cjs",
  define: ownAddress.define,
  banner: { js: ownAddress.banner },
};

/** @type {import("esbuild").BuildOptions} */
const forBrowser = { ...common, platform: "browser", define: { "process.env.NODE_ENV": '"production"' } };

/**
 * @param {string} entry
 * @param {import("esbuild").BuildOptions} options
 * @returns {import("esbuild").BuildOptions}
 */
const bundle = (entry, options) => ({ ...options, entryPoints: [entry] });

/** The server is shipped once: on Node its bundle for a worker starts nothing, but exports how to start it. */
const serverOfWorker = { name: "fettleServer", file: "./worker.js" };

/** @type {import("esbuild").Plugin} */
const takesServerFromWorker = {
  name: "takes the server from the worker",
  setup({ onResolve }) {
    onResolve({ filter: /\/lsp\/(start|warm-up|written)\.ts$/ }, () => ({ path: serverOfWorker.file, external: true }));
  },
};

/**
 * A text that is all ASCII takes an engine half of the memory (2 MB of the server's). What esbuild leaves as it is, is in
 * patterns and in the raw templates of which patterns are made, where an escape means the same.
 * @type {import("esbuild").Plugin}
 */
const allAscii = {
  name: "all in ASCII",
  setup({ initialOptions: { absWorkingDir = "", outfile = "", minify }, onEnd }) {
    onEnd(({ errors }) => {
      if (!minify || errors.length > 0) return;
      const file = resolve(absWorkingDir, outfile);
      const escaped = (/** @type {string} */ unit) => `\\u${unit.charCodeAt(0).toString(16).padStart(4, "0")}`;
      writeFileSync(file, readFileSync(file, "utf8").replace(/[\u0080-\uffff]/g, escaped));
    });
  },
};

/**
 * The bundles, by the entry that each begins with. Extension hosts load CommonJS on every editor
 * that `engines` admits; the command line is split, so that a command loads only what it needs.
 */
export const bundles = [
  bundle("client/src/node.ts", { ...forNode, external: ["vscode"], outfile: "dist/client/node.cjs" }),
  bundle("client/src/web.ts", { ...forBrowser, format: "cjs", external: ["vscode"], outfile: "dist/client/web.js" }),
  bundle("server/src/node/main.ts", { ...forNode, outfile: "dist/server/node.cjs" }),
  bundle("server/src/node/server.ts", {
    ...forNode,
    charset: "ascii",
    plugins: [takesServerFromWorker, allAscii],
    // A text that the engine is given with code compiled before has no loader for modules of its own.
    supported: { "dynamic-import": false },
    outfile: "dist/server/server.cjs",
  }),
  bundle("server/src/lsp/worker.ts", {
    ...forBrowser,
    format: "iife",
    charset: "ascii",
    plugins: [allAscii],
    globalName: serverOfWorker.name,
    footer: { js: `if (typeof module === "object") module.exports = ${serverOfWorker.name};` },
    outfile: "dist/server/worker.js",
  }),
  bundle("client/panel/main.tsx", {
    ...forBrowser,
    format: "iife",
    jsx: "automatic",
    jsxImportSource: "preact",
    outfile: "dist/panel/panel.js",
  }),
  bundle("server/src/cli/main.ts", {
    ...common,
    platform: "node",
    target: "node20",
    format: "esm",
    splitting: true,
    // ES modules first: a package's main file may be wrapped so that the files it loads are not found in a bundle.
    mainFields: ["module", "main"],
    // Loaded from node_modules, and only to make a PNG: it is larger than all the rest.
    external: ["@resvg/resvg-wasm"],
    // Bundled CommonJS packages load Node's modules with `require`, which ES modules do not have.
    banner: {
      js: '#!/usr/bin/env node\nimport { createRequire } from "node:module"; const require = createRequire(import.meta.url);',
    },
    outdir: "dist",
    entryNames: "fettle",
    chunkNames: "cli/[name]-[hash]",
  }),
];
