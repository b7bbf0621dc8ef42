import { statSync } from 'node:fs';
import { basename } from 'node:path';
import sharp from 'sharp';
import { oneLine } from '../document/file-place.ts';
import { EMPTY_PROJECT, type Project } from '../document/project.ts';
import { toText } from '../document/to-text.ts';
import { snap } from '../geometry/lattice.ts';
import { parseLength } from '../geometry/length.ts';
import type { Point } from '../geometry/point.ts';
import { pieceOptionsOf } from '../making/piece-options.ts';
import { type PictureBlock, pictureBlocks } from '../picturing/picture-block.ts';
import { type Pixels, sumsOf } from '../picturing/pixels.ts';
import { drawnBlock } from '../picturing/to-block.ts';
import { piece } from '../piecing/piece.ts';
import { verdictSentence } from '../piecing/sentences.ts';
import { phrase } from '../words/phrase.ts';
import { type Command, type ExitStatus, readArgs } from './command.ts';
import { STANDARD, systemReason } from './read-project.ts';
import { Refusal, WrongUsage } from './trouble.ts';
import { namedBy, refuseOverwriting, writeWhole } from './write-file.ts';

/** Longer side of the pictures that are worked on, pixels. */
const COARSE_PX = 96;
const FINE_PX = 192;

/** A picture of more pixels than this is refused: 20,000 × 20,000. */
const MOST_PIXELS = 400_000_000;

export const picture: Command = {
  name: 'picture',
  summary: phrase('make a block that can be sewn from a photo or drawing'),
  help: phrase(
    'Usage: npm run --silent underpaper -- picture IMAGE --out FILE [options]\n\nDivides a picture (PNG, JPEG or WebP) by straight lines into patches of few fabrics, so that straight\nseams sew them, and writes a project with the block, painted. The picture is cropped about its middle\nto the shape of the block. The same picture and options give the same block.\n\nOptions\n  --out FILE       write the project to this file; a file of that name is replaced\n  --patches N      patches aimed at, 2 to 1000; 60 if not given\n  --fabrics N      fabrics, 1 to 64; 8 if not given\n  --size WxH       size of the block, such as 12x12 or 30x40cm; 12x12 (in) if not given\n  --width LENGTH   narrowest a patch may be; 1/2 in if not given\n  --angle N        sharpest a corner may be, 5 to 60 degrees; 20 if not given\n  --ease X         0 (closest to the picture) to 1 (easiest to sew, on few foundations); 0 if not given\n  --seed N         another number gives another version; 1 if not given\n  --level          horizontal and vertical lines only\n  --help           print this help\n\nExit status\n  0    written\n  1    the picture could not be read, or no such block can be made of it\n  2    wrong usage\n',
  ),
  run: async (args, output): Promise<ExitStatus> => {
    const { file, values } = readArgs('picture', args, {
      out: { type: 'string' },
      patches: { type: 'string' },
      fabrics: { type: 'string' },
      size: { type: 'string' },
      width: { type: 'string' },
      angle: { type: 'string' },
      ease: { type: 'string' },
      seed: { type: 'string' },
      level: { type: 'boolean' },
    });
    const out = namedBy('out', values.out);
    if (out === undefined) throw new WrongUsage('picture needs --out FILE to write to.');
    const wish = {
      patches: numberOf('patches', values.patches ?? '60', 2, 1000),
      fabrics: numberOf('fabrics', values.fabrics ?? '8', 1, 64),
      width: lengthOf('width', values.width ?? '1/2'),
      angle: numberOf('angle', values.angle ?? '20', 5, 60, false),
      ease: numberOf('ease', values.ease ?? '0', 0, 1, false),
      isLevel: values.level === true,
      seed: numberOf('seed', values.seed ?? '1', 0, 0xffffffff),
    };
    const [width, height] = sizeOf(values.size ?? '12x12');
    if (wish.width > Math.min(width, height))
      throw new Refusal('--width is larger than the block: no patch could be so wide.');
    const [coarse, fine] = await Promise.all([
      readPixels(file, width, height, COARSE_PX),
      readPixels(file, width, height, FINE_PX),
    ]);
    refuseOverwriting(file, out);
    const made = lastOf(
      pictureBlocks(
        sumsOf(coarse, width),
        sumsOf(fine, width),
        [0, 0, width, 0, width, height, 0, height],
        wish,
      ),
    );
    if (made === null) throw new Refusal(phrase('No patch of the block keeps to --width and --angle.'));
    const project = projectOf(
      made,
      oneLine(basename(file).replace(/\.[^.]*$/, '')) || phrase('Picture'),
      width,
      height,
    );
    writeWhole(out, toText(project), output);
    const plan = piece(project.blocks[0]!, pieceOptionsOf(project));
    const said = phrase('{patches} patches in {fabrics} fabrics. {verdictSentence}', {
      patches: plan.patches.length,
      fabrics: project.fabrics.length,
      verdictSentence: verdictSentence(plan),
    });
    // Where the project itself goes to standard output nothing else may.
    if (out === STANDARD) output.remark(said);
    else output.out(`${said}\n`);
    return 0;
  },
};

function lastOf(results: ReturnType<typeof pictureBlocks>): PictureBlock | null {
  for (;;) {
    const { done, value } = results.next();
    if (done) return value;
  }
}

function projectOf(made: PictureBlock, name: string, width: number, height: number): Project {
  const corners: Point[] = [
    [0, 0],
    [width, 0],
    [width, height],
    [0, height],
  ];
  const { block, fabrics } = drawnBlock(made, { id: 'b1', name, outline: corners }, [], (n) => `f${n}`);
  return { ...EMPTY_PROJECT, name, fabrics, blocks: [block] };
}

/** Turned upright by its EXIF, cropped about the middle, seen through to white, in sRGB. */
async function readPixels(file: string, width: number, height: number, longest: number): Promise<Pixels> {
  const scale = longest / Math.max(width, height);
  const [across, down] = [width, height].map((inches) => Math.max(1, Math.round(inches * scale)));
  try {
    if (!statSync(file).isFile()) throw new Refusal(phrase('{file}: This is not a file.', { file }));
    const { data, info } = await sharp(file, { limitInputPixels: MOST_PIXELS, failOn: 'error', pages: 1 })
      .rotate()
      .flatten({ background: '#ffffff' })
      .toColourspace('srgb')
      .resize(across!, down!, { fit: 'cover' })
      .ensureAlpha()
      .raw()
      .toBuffer({ resolveWithObject: true });
    return { width: info.width, height: info.height, data };
  } catch (thrown) {
    if (thrown instanceof Refusal) throw thrown;
    if (thrown instanceof Error && 'syscall' in thrown) throw new Refusal(`${file}: ${systemReason(thrown)}`);
    const reason = thrown instanceof Error ? thrown.message : '';
    if (/pixel limit/i.test(reason))
      throw new Refusal(phrase('{file}: The picture has more than 400 million pixels.', { file }));
    throw new Refusal(
      phrase('{file}: This is not a picture that can be read: PNG, JPEG or WebP, whole.', { file }),
    );
  }
}

function numberOf(name: string, text: string, low: number, high: number, isWhole = true): number {
  const value = /^\d+(\.\d+)?$/.test(text.trim()) ? Number(text) : Number.NaN;
  if (!(value >= low && value <= high) || (isWhole && !Number.isInteger(value)))
    throw new WrongUsage(`--${name} takes a ${isWhole ? 'whole ' : ''}number from ${low} to ${high}.`);
  return value;
}

function lengthOf(name: string, text: string): number {
  const length = parseLength(text);
  if (!length.ok || length.inches <= 0) throw new WrongUsage(`--${name} takes a length such as 1/2 or 12mm.`);
  return length.inches;
}

/** `12x12`, `9 x 12 in`, `300x400mm`. */
function sizeOf(text: string): readonly [number, number] {
  const [, first, second, unit = ''] = /^(.+?)\s*[x×]\s*(.+?)\s*(in|mm|cm)?$/.exec(text.trim()) ?? [];
  const sides = [first, second].map((side) => (side === undefined ? null : parseLength(`${side}${unit}`)));
  const inches = sides.map((side) => (side?.ok ? snap(side.inches) : 0));
  if (!inches.every((side) => side >= 1 && side <= 200))
    throw new WrongUsage('--size takes a size from 1 to 200 in such as 12x12 or 300x400mm.');
  return inches as unknown as readonly [number, number];
}
