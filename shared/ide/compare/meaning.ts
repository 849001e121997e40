/** The meaning of a value as a text, for whoever compares: rules compare by the same one. */
export { inOrder, isSameSetting, meaningOf } from "../../rules/lib/meaning.ts";
