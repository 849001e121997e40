/** Pages as a printer gets them: the PDF that the browser makes, and the text on each of its pages. */
import type { Page } from "playwright-core";
import { getDocumentProxy } from "unpdf";

export const PAPERS = ["A4", "Letter"] as const;
export type Paper = (typeof PAPERS)[number];

/** ISO 216, and ANSI/ASME Y14.1 (8.5 in by 11 in); in points of 1/72 in, upright. */
export const SIZES: Readonly<Record<Paper, readonly [width: number, height: number]>> = {
  A4: [595.3, 841.9],
  Letter: [612, 792],
};

export interface PrintedPage {
  readonly widthPt: number;
  readonly heightPt: number;
  /** All text, without blanks: where lines break does not count. */
  readonly text: string;
  /** How far to the right any text reaches. */
  readonly rightPt: number;
}

/** The page as it is shown now, printed on that paper. */
export async function print(page: Page, paper: Paper): Promise<PrintedPage[]> {
  const pdf = await getDocumentProxy(new Uint8Array(await page.pdf({ format: paper })));
  const pages: PrintedPage[] = [];
  for (let number = 1; number <= pdf.numPages; number++) {
    const sheet = await pdf.getPage(number);
    const { width, height } = sheet.getViewport({ scale: 1 });
    const { items } = await sheet.getTextContent();
    const texts = items.flatMap((item) => ("str" in item ? [item] : []));
    pages.push({
      widthPt: width,
      heightPt: height,
      text: bare(texts.map(({ str }) => str).join("")),
      rightPt: Math.max(0, ...texts.map(({ transform, width: wide }) => transform[4] + wide)),
    });
  }
  return pages;
}

/** A text without blanks. */
export function bare(text: string): string {
  return text.normalize("NFKC").replaceAll(/\s+/g, "");
}
