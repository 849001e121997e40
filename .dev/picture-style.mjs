/**
 * What pictures of the editor leave out, as CSS for the moment in which they are taken: every item of the
 * status bar but the editor's own of the open file. The others bear marks of the host that it was taken in.
 */
export const pictureStyle = `
  .part.statusbar .statusbar-item:not([id^="status.editor."]):not([id="status.problems"]) { display: none !important; }
`;
