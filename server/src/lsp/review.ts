/** A text of somebody else, or another craft, held against a craft, answered with its rows and the edits that adopt what is chosen. */
import type { Connection } from "vscode-languageserver";
import { dialectOf } from "../../../shared/dialect/dialects.ts";
import { offerOfBoard } from "../../../shared/ide/board/board-offer.ts";
import { pickedCraft } from "../../../shared/ide/context/picked-craft.ts";
import { offerOfCraft } from "../../../shared/ide/review/carry.ts";
import { hiddenIn } from "../../../shared/ide/review/hidden.ts";
import { type Offered, offerOf } from "../../../shared/ide/review/offer.ts";
import { type Review, reviewOf } from "../../../shared/ide/review/review.ts";
import type { Craft, Source } from "../../../shared/model/craft.ts";
import type { FilePath } from "../../../shared/model/files.ts";
import type { Uri } from "../../../shared/protocol/addresses.ts";
import type { OtherSide } from "../../../shared/protocol/compare.ts";
import { effectiveAddress } from "../../../shared/protocol/effective.ts";
import type { EditedFiles, Refused } from "../../../shared/protocol/file-edits.ts";
import type { LinePlace } from "../../../shared/protocol/findings.ts";
import { addressOfOther } from "../../../shared/protocol/other-texts.ts";
import { REVIEW_REQUEST, type ReviewParams, type ReviewResult } from "../../../shared/protocol/review.ts";
import type { Documents } from "./documents.ts";
import type { Guard } from "./guard.ts";
import { fileSide, type ReadOther, type ReadSide } from "./other-side.ts";

const FAILED: Refused = {
  kind: "refused",
  message: "The review could not be worked out, which is a fault of this tool; its log says more. Nothing was written.",
};

const NO_CRAFT: Refused = {
  kind: "refused",
  message: "No craft of this workspace is meant here, so there is nothing to hold it against: open the craft first.",
};

/** More hidden characters than anyone reads: a text with so many is told by the first of them. */
const MOST_HIDDEN = 500;

/** Answers `fettle/review`, with all files of the workspace read. */
export function answerReview(connection: Connection, documents: Documents, guard: Guard, readOther: ReadOther): void {
  connection.onRequest<ReviewResult, void>(
    REVIEW_REQUEST,
    guard<[ReviewParams], ReviewResult>("review", FAILED, async (params) => {
      const { kind } = params.offer;
      const side = kind === "text" || kind === "board" ? null : await readOther(params.offer);
      if (side?.kind === "refused") return side;
      const file = await documents.loadAll(params.uri);
      const mine = craftMeant(documents, file, params);
      return mine ? reviewed(params, mine, side, documents) : NO_CRAFT;
    }),
  );
}

/** The craft of a document, or a layer that no craft uses yet by itself; null where it is neither. */
function craftMeant(documents: Documents, file: FilePath, { craft }: ReviewParams): Craft | null {
  const workspace = documents.now();
  const picked = pickedCraft(workspace, file, craft && documents.pathOf(craft));
  return picked ?? (workspace.script(file)?.kind === "layer" ? workspace.craftLike(file) : null);
}

function reviewed(params: ReviewParams, mine: Craft, read: ReadSide | null, documents: Documents): ReviewResult {
  const workspace = documents.now();
  const offered = offeredBy(params, read, documents, mine);
  if (offered.kind === "refused") return offered;
  if (offered.kind === "no-script") {
    const text = "text" in params.offer ? params.offer.text : "";
    return { ...offered, hidden: hiddenIn(text).slice(0, MOST_HIDDEN) };
  }
  const into = params.into && documents.placeOf(params.into);
  const review = reviewOf(workspace, mine, offered.offer, { ...params, into });
  return {
    kind: "review",
    mine: { name: mine.name, uri: documents.uriOf(mine.file) },
    theirs: { name: offered.offer.name, uri: addressOf(params) },
    ...toResult(review, documents),
    hidden: hiddenIn(offered.offer.lines.join("\n")).slice(0, MOST_HIDDEN),
  };
}

/** Where the offered lines can be seen: of a craft that is carried over, all that it says. */
function addressOf({ offer, purpose }: ReviewParams): Uri {
  return purpose === "carry" && offer.kind === "file" ? effectiveAddress(offer.uri) : addressOfOther(offer);
}

/** What is offered, at the moment at which the craft was read. */
function offeredBy(
  { offer, purpose }: ReviewParams,
  read: ReadSide | null,
  documents: Documents,
  mine: Craft,
): Offered {
  if (offer.kind === "board") return boardOffered(offer, documents, mine);
  if (offer.kind === "text") return offerOf(documents.now(), offer.text, offer.name);
  const side = read && offer.kind === "file" ? fileSide(documents, read.file) : read;
  if (side?.kind !== "read") return side ?? FAILED;
  const craft = purpose === "carry" ? side.workspace.craftLike(side.file) : null;
  if (craft) return offerOfCraft(side.workspace, craft);
  const answer = side.workspace.view.read(side.file);
  return answer?.kind === "text" ? offerOf(side.workspace, answer.text, side.title, side.file) : FAILED;
}

function boardOffered(
  { text, name, dialect: of }: Extract<OtherSide, { kind: "board" }>,
  documents: Documents,
  mine: Craft,
): Offered {
  const dialect = dialectOf(documents.now(), documents.pathOf(of));
  if (dialect) return offerOfBoard(documents.now(), dialect, text, name, mine);
  return { kind: "refused", message: "The dialect of this text is not there any more: choose one for it." };
}

type Told = Omit<Extract<ReviewResult, { kind: "review" }>, "kind" | "mine" | "theirs" | "hidden">;

/** With the editor's own addresses, and the versions of those documents that it has open. */
function toResult(review: Review, documents: Documents): Told {
  const place = ({ file, line }: Source): LinePlace => ({ file: documents.uriOf(file), line });
  return {
    rows: review.rows.map(({ unknown: _, mineAt, ...row }) => ({ ...row, mineAt: mineAt && place(mineAt) })),
    warnings: review.warnings,
    mapping: review.mapping,
    targets: review.targets.map(({ file, ...target }) => ({ ...target, uri: documents.uriOf(file) })),
    into: documents.uriOf(review.into),
    findings: review.outcome.findings.map((each) => ({
      ...each,
      file: documents.uriOf(each.file),
      related: each.related.map((other) => ({ ...other, file: documents.uriOf(other.file) })),
    })),
    gone: review.outcome.gone,
    measure: review.measure.map(({ at, ...each }) => ({ ...each, at: place(at) })),
    adopt: toEdits(review, documents),
  };
}

function toEdits({ rows, adopted }: Review, documents: Documents): EditedFiles | Refused {
  if (adopted.refused !== null) return { kind: "refused", message: adopted.refused };
  if (!rows.some(({ chosen }) => chosen))
    return { kind: "refused", message: "Nothing is chosen, so nothing is written." };
  if (adopted.files.length + adopted.creates.length === 0)
    return { kind: "refused", message: "What is chosen is the same already, so there is nothing to write." };
  return {
    kind: "edits",
    files: adopted.files.map(({ file, edits }) => {
      const uri: Uri = documents.uriOf(file);
      return { file: uri, version: documents.version(uri), edits };
    }),
    ...(adopted.creates.length > 0 && {
      creates: adopted.creates.map(({ file, text }) => ({ file: documents.uriOf(file), text })),
    }),
  };
}
