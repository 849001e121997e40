/** The panel of a script as a revision of git has it: drawn with what it used then, and never changed. */
import { benchPicture } from "../../../shared/ide/bench/bench-picture.ts";
import { panelOf } from "../../../shared/ide/panel/panel.ts";
import type { Craft } from "../../../shared/model/craft.ts";
import type { FilePath } from "../../../shared/model/files.ts";
import { memoryFiles } from "../../../shared/model/files.ts";
import { otherAddress } from "../../../shared/protocol/other-texts.ts";
import type { PanelModel, PanelParams } from "../../../shared/protocol/panel.ts";
import type { Gap, WayOn } from "../../../shared/protocol/ways.ts";
import type { Documents } from "./documents.ts";
import type { ReadOther, ReadSide } from "./other-side.ts";
import { toPanelModel } from "./panel-to-lsp.ts";

/** A text of a commit stays as it is, so no model of it is ever out of date. */
const NEVER_OLD = Number.MAX_SAFE_INTEGER;

type PastParams = PanelParams & { readonly past: NonNullable<PanelParams["past"]> };

/** The model of a document that shows a file as it was. A layer is drawn as part of the craft, as that was then. */
export async function pastPanel(
  { uri, past, craft, against: _, fit: _preview, bench, ...ask }: PastParams,
  documents: Documents,
  readOther: ReadOther,
): Promise<PanelModel> {
  const { revision, title } = past;
  const read = await readOther({ kind: "revision", uri: craft ?? past.uri, revision });
  if (read.kind === "refused") {
    const nothing = panelOf(documents.words.core().at(memoryFiles({})), "", NEVER_OLD);
    return { ...nothing, file: uri, empty: read.message, emptyWays: [], past: title };
  }
  const file = fileOf(read, past.uri, revision);
  const benchOf = (of: Craft) => benchPicture(of, read.workspace, bench);
  const model = panelOf(read.workspace, file, NEVER_OLD, { ...ask, craft: craft && read.file, benchOf });
  return toPanelModel(asItWas(model, title), (path) => (path === file ? uri : read.uriOf(path)));
}

function fileOf({ workspace, file, uriOf }: ReadSide, uri: PastParams["uri"], revision: string): FilePath {
  const address = otherAddress({ uri, revision });
  return workspace.view.list().find((each) => uriOf(each) === address) ?? file;
}

/** Without anything that would change it: of the ways on only those that lead to a line. */
function asItWas(model: PanelModel, title: string): PanelModel {
  const { goggles } = model;
  return {
    ...model,
    past: title,
    begin: null,
    emptyWays: model.emptyWays.filter(onlyLeads),
    gogglesWays: model.gogglesWays.filter(onlyLeads),
    switchesWays: model.switchesWays.filter(onlyLeads),
    numbersWays: model.numbersWays.filter(onlyLeads),
    missing: model.missing.map(gapAsItWas),
    switchesGaps: model.switchesGaps.map(gapAsItWas),
    goggles: goggles && {
      ...goggles,
      addable: [],
      elements: goggles.elements.map((element) => ({
        ...element,
        faults: element.faults.map((fault) => ({ ...fault, ways: fault.ways.filter(onlyLeads) })),
      })),
    },
  };
}

function gapAsItWas(gap: Gap): Gap {
  return { ...gap, ways: gap.ways.filter(onlyLeads) };
}

function onlyLeads({ action }: WayOn): boolean {
  return action.name === "go";
}
