/** The page of the panel, and those of the other tabs: an empty frame for the app, with a content security policy that permits nothing else. */
import { Uri, type Webview } from "vscode";

/** Where the panel's script and styles lie. */
export function panelFolder(extension: Uri): Uri {
  return Uri.joinPath(extension, "dist/panel");
}

const TITLES = {
  side: "Fettle: goggles, switches and numbers",
  tab: "Fettle: goggles, switches and numbers",
  page: "Fettle: names explained",
  comparison: "Fettle: two craft compared",
  review: "Fettle: a text reviewed",
  fleet: "Fettle: all craft side by side",
  "fleet-change": "Fettle: several craft changed",
} as const;

/** Where a page stands, which says what is in it. */
export type PagePlace = keyof typeof TITLES;

/** The HTML of the panel's webview: no inline script or style, nothing remote. */
export function panelPage(webview: Webview, extension: Uri, place: PagePlace): string {
  const address = (name: string) => webview.asWebviewUri(Uri.joinPath(panelFolder(extension), name)).toString();
  const { cspSource } = webview;
  // What a page sets its base to, and where its forms go, the default says nothing of.
  const policy = `default-src 'none'; script-src ${cspSource}; style-src ${cspSource}; base-uri 'none'; form-action 'none'`;
  return `<!doctype html>
<html lang="en">
  <head>
    <meta charset="utf-8" />
    <meta http-equiv="Content-Security-Policy" content="${policy}" />
    <meta name="viewport" content="width=device-width, initial-scale=1" />
    <title>${TITLES[place]}</title>
    <link rel="stylesheet" href="${address("panel.css")}" />
  </head>
  <body>
    <main id="panel" data-place="${place}"></main>
    <script src="${address("panel.js")}"></script>
  </body>
</html>`;
}
