/**
 * The numbers view: rates, the limits of the packs, the response and delay of the filters, the time of the loop, and
 * the motors from above.
 */
import { useMemo, useRef } from "preact/hooks";
import { drawDelays, notchesInWords, responseChart } from "../../shared/draw/filters.ts";
import { drawLoop, loopTableRows, spareInWords } from "../../shared/draw/loop.ts";
import { limitInWords, type NamedChart, ratesCharts, SIDES } from "../../shared/draw/rates.ts";
import type { NumbersAgainst } from "../../shared/protocol/against.ts";
import type {
  FilterPart,
  FiltersPicture,
  HoverPicture,
  LoopPicture,
  NumbersPicture,
  RatesPicture,
} from "../../shared/protocol/numbers.ts";
import type { LinePlace } from "../../shared/protocol/panel.ts";
import { ExplainButton } from "./explain-button.tsx";
import { CursorLine, LineLink, useLineLink } from "./line-links.tsx";
import { Motors } from "./motors-view.tsx";
import { Packs } from "./packs.tsx";
import { ReadChart } from "./read-chart.tsx";
import { sceneView } from "./scene-view.tsx";
import { TextTable } from "./text-table.tsx";
import { drawnWidth, useWidth } from "./use-width.ts";
import { Gaps } from "./ways.tsx";

/** The least widths, in CSS pixels, of a chart and of a pack that stand side by side. */
const CHART_WIDTH = 190;
const PACK_WIDTH = 350;
const GAP = 12;

interface Props {
  readonly picture: NumbersPicture;
  readonly file: string;
  /** The cursor's line: the part that comes from it is marked. */
  readonly marked: LinePlace | null;
  /** What differs on the other side of a comparison; null where nothing is compared. */
  readonly against: NumbersAgainst | null;
  /** What is drawn of the past stays as it was. */
  readonly stands: "now" | "as it was";
}

/** The whole view; below it stands what the script does not give. */
export function NumbersView({ picture, file, marked, against, stands }: Props) {
  const frame = useRef<HTMLDivElement>(null);
  const width = useWidth(frame);
  const { rates, secondRates, packs, filters, loop, motors, hover, missing } = picture;
  return (
    <div class="numbers" ref={frame}>
      {width > 0 && (
        <CursorLine.Provider value={marked}>
          {against && <NumbersDifferences against={against} picture={picture} width={width} />}
          {rates && (secondRates || !against?.rates) && (
            <Rates title="Rates" rates={rates} second={secondRates} width={width} />
          )}
          {packs.length > 0 && <Packs packs={packs} width={width} packWidth={columnWidth(width, PACK_WIDTH, [2])} />}
          {filters && <Filters filters={filters} width={width} />}
          {loop && <Loop loop={loop} width={width} />}
          {motors && <Motors key={file} picture={motors} file={file} width={width} stands={stands} />}
          {hover && <Hover hover={hover} />}
        </CursorLine.Provider>
      )}
      <Gaps gaps={missing} />
    </div>
  );
}

/** A heading, and the way to the page of what the picture below it is made of. */
function Heading({ title, of }: { title: string; of: string }) {
  return (
    <div class="heading">
      <h2>{title}</h2>
      <ExplainButton of={of} name={of.slice(of.indexOf("/") + 1)} />
    </div>
  );
}

/** Of craft that have little in common: more would push the charts out of sight. */
const SENTENCES_SHOWN = 6;

function Sentences({ words }: { readonly words: readonly string[] }) {
  if (words.length === 0) return null;
  return (
    <ul class="list">
      {words.map((each) => (
        <li key={each}>{each}</li>
      ))}
    </ul>
  );
}

/** Every difference in a sentence, and the rates of both sides in the same charts. */
function NumbersDifferences({
  against,
  picture,
  width,
}: Pick<Props, "picture"> & { against: NumbersAgainst; width: number }) {
  const { words, rates, secondRates } = against;
  const pairs = [
    { title: "Rates here and there", here: picture.rates, there: rates },
    { title: "Second set here and there", here: picture.secondRates, there: secondRates },
  ];
  return (
    <>
      <section>
        <h2>{words.length === 0 ? "None of these numbers differ there" : "From here to there"}</h2>
        <Sentences words={words.slice(0, SENTENCES_SHOWN)} />
        {words.length > SENTENCES_SHOWN && (
          <details>
            <summary>{words.length - SENTENCES_SHOWN} more</summary>
            <Sentences words={words.slice(SENTENCES_SHOWN)} />
          </details>
        )}
      </section>
      {pairs.map(
        ({ title, here, there }) =>
          here && there && <Rates key={title} title={title} rates={here} second={there} sides={SIDES} width={width} />,
      )}
    </>
  );
}

interface RatesProps {
  readonly title: string;
  readonly rates: RatesPicture;
  readonly second: RatesPicture | null;
  readonly width: number;
  /** What the two curves are called, where they are no two sets. */
  readonly sides?: typeof SIDES;
}

function Rates({ title, rates, second, width, sides }: RatesProps) {
  const charts = useMemo(() => ratesCharts(rates, second, sides), [rates, second, sides]);
  const chartWidth = columnWidth(width, CHART_WIDTH, [4, 2]);
  return (
    <section>
      <Heading title={title} of="section/rates" />
      <div class="charts">
        {charts.map(({ name, chart }) => (
          <div key={name} style={{ width: `${chartWidth}px` }}>
            <div class="head">
              <h3>{name}</h3>
              {fullStickLinks(name, chart.lines.length > 1 ? [rates, second] : [rates]).map(({ words, at }, index) => (
                <LineLink key={index} at={at} words={words} of={name} />
              ))}
            </div>
            <ReadChart chart={chart} name={`${name} by stick`} width={chartWidth} height={170} />
          </div>
        ))}
      </div>
    </section>
  );
}

/** The value at full stick in each set of rates, with its line. */
function fullStickLinks(name: NamedChart["name"], sets: readonly (RatesPicture | null)[]) {
  return sets.flatMap((set) => {
    if (name === "throttle") return set?.throttle ? [{ words: limitInWords(set.throttle), at: set.throttle.at }] : [];
    const axis = set?.axes.find((each) => each.name === name);
    return axis ? [{ words: `${Math.round(axis.endDegPerS)} deg/s`, at: axis.at }] : [];
  });
}

/** The width of one column, with as many columns of `counts` as have room; the whole width where none fits. */
function columnWidth(width: number, minWidth: number, counts: readonly number[]): number {
  const columns = counts.find((count) => width >= count * minWidth + (count - 1) * GAP) ?? 1;
  return Math.floor((width - GAP * (columns - 1)) / columns);
}

function Filters({ filters, width }: { filters: FiltersPicture; width: number }) {
  const { parts, chains, notches, leftOut } = filters;
  const chart = useMemo(() => responseChart(filters), [filters]);
  const lineLink = useLineLink();
  const delays = [
    ...parts.map((part) => [part.name, part.what, part.delayMs.toFixed(2)]),
    ...chains.map(({ name, delayMs }) => [`all of the ${name}`, "", delayMs.toFixed(2)]),
  ];
  const partAt = (index: number): FilterPart | undefined => parts[index];
  return (
    <section>
      <Heading title="What passes the filters" of="section/filters" />
      <ReadChart chart={chart} name="What passes, by frequency" width={width} height={210}>
        {notches && (
          <p class="quiet">
            {notchesInWords(notches).join(" ")} {notches.fullHz.length > 0 && "A wedge marks each of those in view."}
          </p>
        )}
      </ReadChart>
      <h2>How much later it arrives</h2>
      {sceneView(drawDelays(filters, { width: drawnWidth(width) }), ({ attributes }) => {
        const index = attributes["data-part"];
        if (typeof index !== "number") return undefined;
        return lineLink(partAt(index)?.at, String(attributes["aria-label"]));
      })}
      {leftOut.length > 0 && <p class="quiet">Not in these sums: {leftOut.join(", ")}.</p>}
      <TextTable head={["filter", "where", "later by, ms"]} rows={delays} name="Delays" />
    </section>
  );
}

function Loop({ loop, width }: { loop: LoopPicture; width: number }) {
  const places: Readonly<Record<string, LinePlace | null>> = {
    gyro: loop.gyroAt,
    loop: loop.at,
    command: loop.commandAt,
  };
  const lineLink = useLineLink();
  const rows = [...loopTableRows(loop), ["left", spareInWords(loop)]];
  return (
    <section>
      <Heading
        title={loop.frameUs > loop.roundUs ? "The command does not fit the round" : "A round of the loop"}
        of="setting/sensors.loop-rate"
      />
      {sceneView(drawLoop(loop, { width: drawnWidth(width), heading: "none" }), ({ attributes }) => {
        const name = attributes["data-loop"];
        if (typeof name !== "string") return undefined;
        return lineLink(places[name], `${name}: ${rows.find(([of]) => of === name)?.[1] ?? ""}`);
      })}
      <TextTable head={["what", "time"]} rows={rows} name="A round of the loop" />
    </section>
  );
}

/** Always a range, as the estimate is rough; what the script says stands beside it. */
function Hover({ hover }: { hover: HoverPicture }) {
  return (
    <section>
      <div class="heading">
        <h2>Hover, by a rough estimate</h2>
        <ExplainButton of="setting/frame.hover-throttle" name="hover-throttle" />
      </div>
      <ul class="list">
        {hover.figures.map(({ name, expected, said, at, isDoubtful }) => (
          <li key={name}>
            {expected}
            {said !== null && (
              <>
                ; the script says <LineLink at={at} words={said} of={`the ${name} in hover`} />
              </>
            )}
            {isDoubtful && (
              <span class="finding hint"> That is far off: one of the figures is likely to be a slip.</span>
            )}
          </li>
        ))}
      </ul>
    </section>
  );
}
