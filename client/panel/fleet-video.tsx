/** What is to be said of the video channels of craft that fly together. */
import type { PackedFleet } from "../../shared/protocol/fleet-messages.ts";

export function FleetVideoNotes({ fleet: { craft, video } }: { readonly fleet: PackedFleet }) {
  const { together, conflicts, plan, noPlan } = video;
  const nameOf = (index: number) => craft[index]!.name;
  if (together.length === 0)
    return (
      <p class="quiet">
        Nothing is said of channels that disturb each other: name the craft that fly together in the setting
        “fettle.together”.
      </p>
    );
  return (
    <section aria-label="Channels of craft that fly together">
      <p>Flown together: {together.map(nameOf).join(", ")}.</p>
      {conflicts.length === 0 ? (
        <p>None of their channels is in the way of another.</p>
      ) : (
        <ul class="list">
          {conflicts.map(({ message }) => (
            <li key={message}>{message}</li>
          ))}
        </ul>
      )}
      {noPlan !== null && <p>{noPlan}</p>}
      {plan !== null && plan.length > 0 && (
        <>
          <p>With these changes nothing is in the way:</p>
          <ul class="list">
            {plan.map(({ craft: index, fromMhz, toMhz, note }) => (
              <li key={index}>
                {nameOf(index)}: from {fromMhz} MHz to {toMhz} MHz{note !== null && ` (${note})`}
              </li>
            ))}
          </ul>
        </>
      )}
    </section>
  );
}
