/** The catalogue's types, derived from its schema so that the two cannot differ. */
import type { z } from "zod";
import type * as schema from "./schema.ts";

export type SettingSpec = z.infer<typeof schema.settingSchema>;
export type ValueType = SettingSpec["types"][number];
export type SimpleType = Exclude<ValueType, { is: "fields" }>;
export type FieldsType = Extract<ValueType, { is: "fields" }>;
export type FieldSpec = FieldsType["fields"][number];
export type QuantityType = Extract<ValueType, { is: "quantity" }>;
export type IntegerType = Extract<ValueType, { is: "integer" }>;
export type UsualBand = NonNullable<QuantityType["usual"]>[number];
export type Limit = NonNullable<QuantityType["min"]>;
export type Need = NonNullable<SettingSpec["needs"]>[number];
/** What a need asks of a craft, without its reason. */
export type Having = NonNullable<Need["or"]>[number];
/** By SECTION.NAME, or the name of an element or a mode: needs besides those that stand beside the name itself. */
export type NeedTable = Readonly<Record<string, readonly Need[]>>;
/** By section, then by setting: a value as one writes it. */
export type ExampleTable = Readonly<Record<string, Readonly<Record<string, string>>>>;
export type SectionSpec = z.infer<typeof schema.sectionSchema>;
export type ModeSpec = z.infer<typeof schema.modeSchema>;
export type ModeRelations = z.infer<typeof schema.modeRelationsSchema>;
export type Comparison = z.infer<typeof schema.comparisonSchema>;
export type FigureSpec = z.infer<typeof schema.figureSchema>;
export type ElementSpec = z.infer<typeof schema.elementSchema>;
export type ReadingSpec = z.infer<typeof schema.readingSchema>;
export type UnitFamily = z.infer<typeof schema.unitFamilySchema>;
export type CatalogueFile = z.infer<typeof schema.catalogueFileSchema>;
export type OwnSetting = CatalogueFile["settings"][number];
