/** Values of settings as texts that are equal where the values are. */
import type { SettingSpec } from "../../catalogue/specs.ts";
import type { Setting } from "../../model/craft.ts";
import { printValue } from "../../syntax/print-value.ts";
import type { Value } from "../../syntax/value.ts";

/** The canonical text, with fields in the catalogue's order, so that equal values have equal texts. */
export function canonicalText(
  { value, text, items }: Pick<Setting, "value" | "text" | "items">,
  spec: SettingSpec | undefined,
): string {
  const values = items ? items.map((item) => item.value) : [value];
  const texts = values.map((each) => (each?.kind === "fields" ? ordered(each, spec) : null));
  return texts.includes(null) ? text : texts.join("; ");
}

function ordered(value: Extract<Value, { kind: "fields" }>, spec: SettingSpec | undefined): string {
  const order = spec?.types.flatMap((type) => (type.is === "fields" ? type.fields.map(({ name }) => name) : [])) ?? [];
  const fields = [...value.fields].sort((a, b) => order.indexOf(a.name) - order.indexOf(b.name));
  return printValue({ ...value, fields });
}
