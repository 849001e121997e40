/**
 * What pictures of the editor leave out, as CSS for the moment in which they are taken: every item of the
 * status bar but the editor's own of the open file, and the names that the host gives its window and its folder.
 * The others bear marks of the host that it was taken in.
 */
export const pictureStyle = `
  .part.statusbar .statusbar-item:not([id^="status.editor."]):not([id="status.problems"]) { display: none !important; }
  .part.titlebar .window-title, .part.titlebar .titlebar-center { visibility: hidden !important; }
  .editor-group-watermark, .letterpress { visibility: hidden !important; }
  .pane:has(.explorer-folders-view) > .pane-header .title { visibility: hidden !important; }
`;
