import { create, type Font } from 'fontkit';
import { isPlain } from './letter-measures.ts';
import { type Face, type FontFiles, type FullTypeface, type Typeface, wordByWord } from './typeface.ts';

type Fonts = Readonly<Record<Face, Font>>;

const opened = new WeakMap<FontFiles, Fonts>();

/**
 * The faces of a typeface as fonts whose letters can be drawn and embedded; opened once. Throws when a file is no
 * font, which only a broken build can cause.
 */
export function fontsOf({ files }: Pick<FullTypeface, 'files'>): Fonts {
  const known = opened.get(files);
  if (known) return known;
  const fonts = { regular: open(files.regular), semibold: open(files.semibold) };
  opened.set(files, fonts);
  return fonts;
}

/**
 * A font whose letters know what they stand for, however they are first come by. The library keeps each outline as
 * it was first asked for, and one asked for as a piece of another (the o of ó, the ’ of ”) would stand for nothing:
 * the text of a PDF would then be read, searched and copied without it.
 */
function open(bytes: Uint8Array): Font {
  const font = create(bytes);
  const outline = font.getGlyph.bind(font);
  font.getGlyph = (id, codePoints) =>
    outline(id, codePoints ?? [...(font.stringsForGlyph(id)[0] ?? '')].map((one) => one.codePointAt(0)!));
  return font;
}

/**
 * A typeface with its fonts: it measures texts that are not plain, see `isPlain`, as they are set, and can be drawn.
 * Loading the files is the caller's: from disk on the command line, by a fetch in the browser.
 */
export function withShaping(typeface: Typeface, files: FontFiles): FullTypeface {
  const shaped = wordByWord((word, face) => {
    const font = fontsOf({ files })[face];
    const { advanceWidth, bbox } = font.layout(word);
    return {
      width: advanceWidth / font.unitsPerEm,
      up: bbox.maxY / font.unitsPerEm,
      down: -bbox.minY / font.unitsPerEm,
    };
  });
  return {
    ...typeface,
    files,
    extent: (text, face) => (isPlain(text) ? typeface.extent : shaped)(text, face),
  };
}
