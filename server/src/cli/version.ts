/** The version that this program was built as. */
import project from "../../../package.json" with { type: "json" };

export const { version } = project;
