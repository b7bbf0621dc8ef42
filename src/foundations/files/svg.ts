import type { Point } from '../../geometry/point.ts';
import { type Mark, PENS, type PenName, type Print, PT, type TextMark, type Tone, toned } from '../marks.ts';
import { marksOf, type Sheet } from '../sheet/sheet.ts';

/** The screen's own cut of the typeface first, then an installed one. */
const FONTS = "'Source Sans 3 Variable', 'Source Sans 3', sans-serif";

/**
 * One sheet as SVG: width and height in inches, the drawing in points (72 to the inch), one path a pen. Text is
 * live text; its measured length is stated, so it keeps its place whatever font the viewer puts in.
 */
export const toSvg = (sheet: Sheet): string =>
  framed(sheet, `<g font-family="${FONTS}">${drawingOf(marksOf(sheet), false, textOf, sheet.tone)}</g>`);

export function framed(sheet: Sheet, drawing: string): string {
  const size = `width="${trimmed(sheet.width)}in" height="${trimmed(sheet.height)}in"`;
  const view = `viewBox="0 0 ${units(sheet.width)} ${units(sheet.height)}"`;
  return `<svg xmlns="http://www.w3.org/2000/svg" ${size} ${view}><title>${escaped(sheet.title)}</title>${drawing}</svg>`;
}

export function drawingOf(
  marks: readonly Mark[],
  isWhole: boolean,
  write: (mark: TextMark) => string,
  tone?: Tone,
): string {
  const prints = new Map<string, string>();
  const fills = marks.flatMap((mark) => {
    if (mark.kind !== 'polygon' || mark.fill === undefined) return [];
    const id = mark.print && printId(mark.print, prints);
    const fill = `${id === undefined ? '' : `url(#${id}) `}${escaped(mark.fill)}`;
    return [`<path d="${outline(mark)}" fill="${fill}"/>`];
  });
  const paths = (Object.keys(PENS) as PenName[]).flatMap((pen) => {
    const d = marks.map((mark) => (mark.kind !== 'text' && mark.pen === pen ? outline(mark) : '')).join('');
    return d === '' || PENS[pen].width === 0 ? [] : [pathOf(pen, d, isWhole, tone)];
  });
  const dots = marks.flatMap((mark) =>
    mark.kind === 'circle' && mark.filled
      ? [`<circle cx="${units(mark.at[0])}" cy="${units(mark.at[1])}" r="${units(mark.radius)}"/>`]
      : [],
  );
  const inTone = tone === 'grey' ? ` fill="${greyOf(toned(0, tone))}"` : '';
  const texts = marks.flatMap((mark) => (mark.kind === 'text' && mark.text !== '' ? [write(mark)] : []));
  return [
    prints.size > 0 ? `<defs>${[...prints.values()].join('')}</defs>` : '',
    fills.length > 0 ? `<g>${fills.join('')}</g>` : '',
    `<g fill="none" stroke-linecap="round" stroke-linejoin="miter">${paths.join('')}</g>`,
    dots.length > 0 ? `<g${inTone}>${dots.join('')}</g>` : '',
    texts.length > 0 ? `<g${inTone}>${texts.join('')}</g>` : '',
  ].join('');
}

/** The name of the pattern that fills with a print; made and remembered at the first use. */
function printId(print: Print, prints: Map<string, string>): string {
  const { data, at, width, height, quarterTurns } = print;
  const [x, y] = [units(at[0]), units(at[1])];
  const size = `width="${units(width)}" height="${units(height)}"`;
  // Sheets may stand in one page: a name that two of them share must mean the same print at the same place.
  const id = ['print', signOf(data), x, y, units(width), units(height), quarterTurns].join('_');
  if (!prints.has(id)) {
    const turned =
      quarterTurns % 4 === 0 ? '' : ` patternTransform="rotate(${trimmed(90 * quarterTurns)} ${x} ${y})"`;
    prints.set(
      id,
      `<pattern id="${id}" patternUnits="userSpaceOnUse" x="${x}" y="${y}" ${size}${turned}><image ${size} preserveAspectRatio="none" href="${escaped(data)}"/></pattern>`,
    );
  }
  return id;
}

/** Tells pictures apart by their length and a sum over signs spread through them. */
function signOf(data: string): string {
  let sum = data.length;
  const step = Math.max(1, Math.floor(data.length / 500));
  for (let at = 0; at < data.length; at += step) sum = (Math.imul(sum, 31) + data.charCodeAt(at)) >>> 0;
  return sum.toString(36);
}

function pathOf(pen: PenName, d: string, isWhole: boolean, tone: Tone | undefined): string {
  const { width, dash, grey } = PENS[pen];
  const dashes =
    dash.length > 0 && !isWhole
      ? ` stroke-dasharray="${dash.map(units).join(' ')}" stroke-linecap="butt"`
      : '';
  return `<path class="${pen}" d="${d}" stroke="${greyOf(toned(grey, tone))}" stroke-width="${units(width)}"${dashes}/>`;
}

function outline(mark: Exclude<Mark, TextMark>): string {
  switch (mark.kind) {
    case 'line':
      return trace(mark.points);
    case 'polygon':
      return `${trace(mark.ring)}Z`;
    case 'circle': {
      if (mark.filled) return '';
      const r = units(mark.radius);
      const left = `${units(mark.at[0] - mark.radius)} ${units(mark.at[1])}`;
      const right = `${units(mark.at[0] + mark.radius)} ${units(mark.at[1])}`;
      return `M${left}A${r} ${r} 0 1 1 ${right}A${r} ${r} 0 1 1 ${left}Z`;
    }
  }
}

const trace = (points: readonly Point[]): string =>
  points.map(([x, y], i) => `${i === 0 ? 'M' : 'L'}${units(x)} ${units(y)}`).join('');

function textOf({ at, turn, face, size, text, width }: TextMark): string {
  const [x, y] = [units(at[0]), units(at[1])];
  const turned = turn === 0 ? '' : ` transform="rotate(${trimmed(turn)} ${x} ${y})"`;
  const weight = face === 'semibold' ? ' font-weight="600"' : '';
  return `<text x="${x}" y="${y}" font-size="${units(size)}"${weight} textLength="${units(width)}" lengthAdjust="spacingAndGlyphs" xml:space="preserve"${turned}>${escaped(text)}</text>`;
}

const greyOf = (grey: number): string => {
  const level = Math.round(255 * grey)
    .toString(16)
    .padStart(2, '0');
  return `#${level}${level}${level}`;
};

/** Inches to points, to a ten-thousandth. */
export const units = (inches: number): string => trimmed(inches / PT);

const trimmed = (value: number): string => String(Math.round(value * 1e4) / 1e4 || 0);

const ENTITIES: Readonly<Record<string, string>> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;' };

export const escaped = (text: string): string => text.replace(/[&<>"]/g, (sign) => ENTITIES[sign]!);
