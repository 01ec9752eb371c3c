/** The pictures of a sheet's text, and those of the whole book that a document could not show. */
import type { Book } from "../../book/book";
import type { Piece, SheetOutputs } from "../../book/outputs";
import { kindOf } from "../../sheet/kinds";
import { missingPictures as missingIn } from "../text/markdown";
import { type PictureResolver, picturesOf } from "../text/picture";

type Prose = Piece & { readonly kind: "prose" };

/** The pictures of a Markdown cell; what is missing says where. */
export function picturesIn(sheet: string, { cell, attachments }: Prose, read: SheetOutputs["picture"]): PictureResolver {
  return placed(`${sheet}, cell ${cell}`, picturesOf(attachments, read));
}

/** What the text shows and the document cannot: pictures, each with the reason and the place. */
export function missingPictures({ sheets }: Pick<Book, "sheets">): string[] {
  return sheets.flatMap(({ name, pieces, displays, picture }) => [
    ...pieces.flatMap((piece) => (piece.kind === "prose" ? missingIn(piece.markdown, picturesIn(name, piece, picture)) : [])),
    ...displays.flatMap(({ display, cell }) =>
      (kindOf(display.block).prose?.(display.block) ?? []).flatMap((text) =>
        missingIn(text, placed(`${name}, code cell ${cell}`, picturesOf(undefined))),
      ),
    ),
  ]);
}

function placed(place: string, picture: PictureResolver): PictureResolver {
  return (target) => {
    try {
      return picture(target);
    } catch (error) {
      throw new Error(`${(error as Error).message} (${place})`);
    }
  };
}
