/** Prints values in their canonical spelling: one space before a unit and around `to` and `x`; digits as written. */
import type { Condition, Subject } from "./condition.ts";
import { quote } from "./scanner.ts";
import type { Axis, ControlPlace, Quantity, Value } from "./value.ts";

/** A value in canonical spelling: one space between words and before a unit. */
export function printValue(value: Value): string {
  switch (value.kind) {
    case "quantity":
      return printQuantity(value);
    case "integer":
      return String(value.number);
    case "choice":
      return value.word;
    case "yes-no":
      return value.yes ? "yes" : "no";
    case "text":
      return quote(value.text);
    case "date":
      return value.date;
    case "order":
      return value.words.join(" ");
    case "range":
      return `${printQuantity(value.from)} to ${printQuantity(value.to)}`;
    case "size":
      return `${value.columns} x ${value.rows}`;
    case "cell":
      return `${printAxis(value.column)}, ${printAxis(value.row)}`;
    case "colour":
      return value.named ? value.colour : quote(value.colour);
    case "list":
      return value.items.map(printValue).join(", ");
    case "fields":
      return value.fields.map((field) => `${field.name} ${printValue(field.value)}`).join("  ");
    case "condition":
      return printCondition(value.condition);
    case "follows":
      return `follows ${value.dial} from ${printValue(value.from)} to ${printValue(value.to)}`;
    case "control": {
      const head = `${value.control} ch${value.channel}`;
      const lies = value.lies ? `  ${printPlace(value.lies)}` : "";
      if (value.control === "dial")
        return `${head} ${plainNumber(value.fromUs!)} us to ${plainNumber(value.toUs!)} us${lies}`;
      const positions = value.positions
        .map((position) => `${position.name} ${plainNumber(position.pulseUs)} us`)
        .join("  ");
      const rests = value.rest === value.positions[0]?.name ? "" : `  rests ${value.rest}`;
      return `${head}  ${positions}${rests}${lies}`;
    }
  }
}

/** Where a control lies: “lies left shoulder”. */
export function printPlace({ side, face }: ControlPlace): string {
  return `lies ${side}${face ? ` ${face}` : ""}`;
}

function printQuantity(quantity: Quantity): string {
  return quantity.unit === "" ? quantity.digits : `${quantity.digits} ${quantity.unit}`;
}

/** One axis of a place: `left+2`, `bottom`, `7`. */
export function printAxis({ anchor, offset }: Axis): string {
  if (anchor === null) return String(offset);
  if (offset === 0) return anchor;
  return offset > 0 ? `${anchor}+${offset}` : `${anchor}${offset}`;
}

/** Prints a condition with only the brackets that it needs. */
export function printCondition(condition: Condition): string {
  switch (condition.kind) {
    case "or":
      return condition.parts.map(printCondition).join(" or ");
    case "and":
      return condition.parts
        .map((part) => (part.kind === "or" ? `(${printCondition(part)})` : printCondition(part)))
        .join(" and ");
    case "not": {
      const { part } = condition;
      return part.kind === "or" || part.kind === "and"
        ? `not (${printCondition(part)})`
        : `not ${printCondition(part)}`;
    }
    case "always":
      return "always";
    case "mode":
      return condition.name;
    case "is":
      return `${condition.control} is ${condition.negated ? "not " : ""}${condition.position}`;
    case "in":
      return `${printSubject(condition.subject)} in ${plainNumber(condition.fromUs)} us to ${plainNumber(condition.toUs)} us`;
    case "above":
    case "below":
      return `${printSubject(condition.subject)} ${condition.kind} ${plainNumber(condition.boundUs)} us`;
  }
}

/** The shortest decimal of a finite number. JavaScript's own has an exponent from 10^21 on and below 10^-6, which no script has. */
function plainNumber(number: number): string {
  const shortest = String(number);
  const [, sign = "", whole = "", places = "", power] = /^(-?)(\d)(?:\.(\d+))?e([+-]\d+)$/.exec(shortest) ?? [];
  if (power === undefined) return shortest;
  const digits = whole + places;
  // How many digits stand before the point.
  const before = Number(power) + 1;
  return before > 0 ? sign + digits.padEnd(before, "0") : `${sign}0.${"0".repeat(-before)}${digits}`;
}

function printSubject(subject: Subject): string {
  return subject.kind === "control" ? subject.name : `ch${subject.channel}`;
}
