/** Where the language server begins as a program of its own: its bundles lie beside this one. */
import { cacheFolder } from "./cache-folder.ts";
import { compiledBundles } from "./compiled-bundles.ts";

const bundles = compiledBundles(__dirname, cacheFolder());
const { serve } = bundles.load("./server.cjs") as typeof import("./server.ts");
serve(bundles.keep);
