/** A text or a file that is dropped on the panel, to be reviewed. */
import { postToHost } from "./host.ts";

/** What is larger is not read: a whole configuration has some hundred kilobytes at most. */
const MOST_BYTES = 4 * 1024 * 1024;
/** What the editor's own explorer brings, before what other programs do. */
const ADDRESSES = ["application/vnd.code.uri-list", "text/uri-list"];
const CLASS = "dropping";

/** Starts to take what is dropped; returns a function that stops this. */
export function takeDrops(): () => void {
  const mark = (isOver: boolean) => document.body.classList.toggle(CLASS, isOver);
  const onOver = (event: DragEvent) => {
    if (!event.dataTransfer || !canBeRead(event.dataTransfer)) return;
    event.preventDefault();
    event.dataTransfer.dropEffect = "copy";
    mark(true);
  };
  // Of a drag that goes from one element of the page to another the page is not left.
  const onLeave = ({ relatedTarget }: DragEvent) => {
    if (relatedTarget === null) mark(false);
  };
  const onDrop = (event: DragEvent) => {
    mark(false);
    if (!event.dataTransfer || !canBeRead(event.dataTransfer)) return;
    event.preventDefault();
    void read(event.dataTransfer);
  };
  document.addEventListener("dragover", onOver);
  document.addEventListener("dragleave", onLeave);
  document.addEventListener("drop", onDrop);
  return () => {
    document.removeEventListener("dragover", onOver);
    document.removeEventListener("dragleave", onLeave);
    document.removeEventListener("drop", onDrop);
  };
}

function canBeRead({ types }: DataTransfer): boolean {
  return ["Files", "text/plain", ...ADDRESSES].some((type) => types.includes(type));
}

/** Everything is taken out of the transfer before anything is awaited: it is empty after its event. */
async function read(transfer: DataTransfer): Promise<void> {
  const [file] = transfer.files;
  const addresses = ADDRESSES.flatMap((type) => transfer.getData(type).split(/\r?\n/));
  // A link of a browser is no file that the editor could read.
  const address = addresses.find((each) => each !== "" && !/^(#|https?:)/i.test(each));
  const text = transfer.getData("text/plain");
  if (address !== undefined) postToHost({ kind: "dropped", what: { kind: "file", uri: address } });
  else if (file)
    postToHost({
      kind: "dropped",
      what:
        file.size > MOST_BYTES
          ? { kind: "too-large", name: file.name, megabytes: file.size / 1024 / 1024 }
          : { kind: "text", text: await file.text(), name: file.name },
    });
  else if (text.trim() !== "") postToHost({ kind: "dropped", what: { kind: "text", text, name: "the dropped text" } });
}
