/** The motor that last had the focus, with all that can be done to it, for who cannot or would rather not drag. */
import { motorInWords, placeWords, propellerWords } from "../../shared/draw/motors-words.ts";
import type { MotorGesture } from "../../shared/protocol/motor-edit.ts";
import type { MotorsPicture, PlacedMotor } from "../../shared/protocol/motors.ts";

interface Props {
  readonly picture: MotorsPicture;
  readonly chosen: PlacedMotor | null;
  readonly make: (gesture: MotorGesture) => void;
  readonly show: (motor: PlacedMotor) => void;
}

const TURNS = ["clockwise", "anticlockwise"] as const;

export function ChosenMotor({ picture, chosen, make, show }: Props) {
  if (!chosen)
    return (
      <p class="quiet">
        Drag a motor to another corner, or move to it with Tab and press an arrow key; R turns it the other way. Its
        line follows.
      </p>
    );
  const { number, place, direction, isRead, at } = chosen;
  const words = motorInWords(chosen);
  return (
    <div class="chosen">
      <p>
        <b>{words.slice(0, words.indexOf(","))}</b>
        {words.slice(words.indexOf(","))}
        {direction && <span class="quiet block">The propeller that belongs there: {propellerWords(direction)}.</span>}
      </p>
      <div class="tools">
        {isRead && (
          <label>
            Corner{" "}
            <select
              value={place ?? ""}
              onChange={({ currentTarget }) => {
                const chosenPlace = currentTarget.value;
                currentTarget.value = place ?? "";
                if (chosenPlace !== "") make({ kind: "place", motor: number, place: chosenPlace });
              }}
            >
              {place === null && <option value="">not said</option>}
              {place !== null && !picture.corners.some((corner) => corner.place === place) && (
                <option value={place}>{placeWords(place)}</option>
              )}
              {picture.corners.map((corner) => (
                <option
                  key={corner.place}
                  value={corner.place}
                  disabled={place === null && isTaken(picture, corner.place)}
                >
                  {placeWords(corner.place)}
                  {corner.place === place ? "" : takenWords(picture, corner.place)}
                </option>
              ))}
            </select>
          </label>
        )}
        {isRead && (
          <fieldset class="joined" aria-label={`Motor ${number} turns`}>
            {TURNS.map((turn) => (
              <button
                type="button"
                key={turn}
                aria-pressed={turn === direction}
                onClick={() => make({ kind: "turn", motor: number, direction: turn })}
              >
                {turn}
              </button>
            ))}
          </fieldset>
        )}
        {at && (
          <button type="button" onClick={() => show(chosen)}>
            Show its line
          </button>
        )}
      </div>
    </div>
  );
}

function isTaken({ motors }: MotorsPicture, place: string): boolean {
  return motors.some((motor) => motor.place === place);
}

/** Which motor changes places with one that comes there. */
function takenWords({ motors }: MotorsPicture, place: string): string {
  const there = motors.filter((motor) => motor.place === place).map(({ number }) => number);
  return there.length === 0 ? "" : `, now ${there.join(" and ")}`;
}
