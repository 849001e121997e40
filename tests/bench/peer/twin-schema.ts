/** The catalogue as a JSON Schema (draft-07): of each setting the type, the limits, the words, and what it is for. */
import type { Catalogue } from "../../../shared/catalogue/catalogue.ts";
import type { SectionSpec } from "../../../shared/catalogue/specs.ts";
import { type CheckedType, told } from "./twins.ts";

type Schema = Readonly<Record<string, unknown>>;

/** The schema of a craft that is told as JSON. A named pack is checked as the plain one is. */
export function schemaOf(catalogue: Catalogue): Schema {
  const sections = catalogue.sections.filter(({ settings }) => settings.length > 0);
  return {
    $schema: "http://json-schema.org/draft-07/schema#",
    type: "object",
    definitions: Object.fromEntries(sections.map((each) => [each.name, sectionSchema(each)])),
    properties: {
      ...Object.fromEntries(sections.map(({ name }) => [name, { $ref: `#/definitions/${name}` }])),
      packs: { type: "object", additionalProperties: { $ref: "#/definitions/pack" } },
    },
    additionalProperties: false,
  };
}

const sectionSchema = ({ name, what, settings }: SectionSpec): Schema => ({
  type: "object",
  description: what,
  // Of several types the one that the craft uses: a choice between schemas would cost the peer more than it does us.
  properties: Object.fromEntries(
    settings.flatMap((spec) => {
      const type = told(name, spec)?.type;
      return type ? [[spec.name, { ...typeSchema(type), description: `${spec.what}\n\n${spec.why}` }]] : [];
    }),
  ),
  additionalProperties: false,
});

function typeSchema(type: CheckedType): Schema {
  switch (type.is) {
    case "quantity":
      return { type: "number", minimum: type.min?.at, maximum: type.max?.at };
    case "integer":
      return { type: "integer", minimum: type.min?.at, maximum: type.max?.at };
    case "choice":
      return {
        enum: type.choices.map(({ word }) => word),
        enumDescriptions: type.choices.map(({ what }) => what),
      };
    case "yes-no":
      return { type: "boolean" };
  }
}
