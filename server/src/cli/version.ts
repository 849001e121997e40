/** The version that this program says it is; a test holds it to the manifest's. */
export const version = "0.1.0";
