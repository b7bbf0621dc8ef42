import { describe, expect, it } from 'vitest';
import { givePicture, removeFabric, removePicture, updateFabric } from '../../src/document/edit-fabrics.ts';
import { drawBlock, toSvgPicture } from '../../src/document/export-block.ts';
import {
  ALL_PICTURES_LETTERS,
  checkAcross,
  checkPicture,
  checkRoom,
  isMoving,
  isPictureData,
  PICTURE_LETTERS,
} from '../../src/document/fabric-picture.ts';
import { openFile } from '../../src/document/file.ts';
import type { FabricPicture, Project } from '../../src/document/project.ts';
import { toText } from '../../src/document/to-text.ts';
import { has, renderPdf, runOn } from '../foundations/tools.ts';
import { importedFrom, sizeOf } from './import-svg/imported.ts';
import { chequer } from './prints.ts';
import { frozen, harbour, quarters } from './projects.ts';

const picture: FabricPicture = frozen(chequer({ across: 3 }));

const fabricOf = (project: Project, id: string) => project.fabrics.find((fabric) => fabric.id === id);

describe('what a picture of a fabric may be', () => {
  it('PNG, JPEG or WebP written out, and nothing a page would fetch or run', () => {
    expect(isPictureData(picture.data)).toBe(true);
    for (const data of [
      '',
      'https://example.org/cloth.png',
      'javascript:alert(1)',
      'data:image/svg+xml;base64,PHN2Zy8+',
      'data:text/html;base64,AAAA',
      'data:image/png;base64,',
      'data:image/png;base64,AA"onload="A',
      'data:image/png;base64,AAA',
      'data:image/png,AAAA',
      `${picture.data}\n`,
      ` ${picture.data}`,
    ])
      expect(isPictureData(data), data.slice(0, 40)).toBe(false);
  });

  it('no larger than is kept, of whole pixels, of cloth between 1/16 in and 120 in wide', () => {
    const faultOf = (change: Partial<FabricPicture>): string => {
      const checked = checkPicture({ ...picture, ...change });
      return checked.ok ? '' : checked.error;
    };
    expect(faultOf({})).toBe('');
    expect(faultOf({ data: `data:image/png;base64,${'A'.repeat(PICTURE_LETTERS)}` })).toContain('1 MB');
    expect(faultOf({ data: 'cloth.png' })).toBe('The picture is not a PNG, JPEG or WebP picture.');
    expect(faultOf({ width: 0 })).toContain('pixels');
    expect(faultOf({ height: 2.5 })).toContain('pixels');
    expect(faultOf({ width: 20_000 })).toContain('4,096');
    for (const across of [0, -1, 1 / 32, 121, Number.NaN, Number.POSITIVE_INFINITY])
      expect(faultOf({ across }), `${across}`).toMatch(/^The width of the piece is .+\.$/);
    for (const across of [1 / 16, 44, 120]) expect(checkAcross(across).ok).toBe(true);
  });

  it('only as many as fit a file together', () => {
    const large = { ...picture, data: `data:image/png;base64,${'A'.repeat(PICTURE_LETTERS - 60)}` };
    const many = Math.floor(ALL_PICTURES_LETTERS / large.data.length);
    const full: Project = {
      ...harbour,
      fabrics: Array.from({ length: many + 1 }, (_, i) => ({
        id: `f${i + 1}`,
        name: `Bolt ${i + 1}`,
        color: '#808080',
        ...(i < many && { picture: large }),
      })),
    };
    const beyond = checkRoom(full, `f${many + 1}`, large);
    expect(beyond.ok || beyond.error).toMatch(/^The pictures of all fabrics together .+\.$/);
    expect(givePicture(full, `f${many + 1}`, large)).toBe(full);
    // In the place of another there is room.
    expect(checkRoom(full, 'f1', large).ok).toBe(true);
    const over = { ...full, fabrics: full.fabrics.map((fabric) => ({ ...fabric, picture: large })) };
    const opened = openFile(toText(over));
    expect(opened.ok || opened.error.message).toBe(
      'The list of fabrics has pictures of more than 30 MB together.',
    );
  });

  it('told when it moves, by the chunk or the flag that says so (PNG 11.3.6, RFC 9649 2.7)', () => {
    const bytes = (...parts: readonly (string | number)[]): Uint8Array =>
      Uint8Array.from(
        parts.flatMap((part) =>
          typeof part === 'number' ? [part] : [...part].map((sign) => sign.charCodeAt(0)),
        ),
      );
    const signature = [0x89, 'PNG', 0x0d, 0x0a, 0x1a, 0x0a] as const;
    const chunk = (name: string): readonly (string | number)[] => [0, 0, 0, 0, name, 0, 0, 0, 0];
    expect(isMoving(bytes(...signature, ...chunk('tEXt'), ...chunk('acTL'), ...chunk('IDAT')))).toBe(true);
    expect(isMoving(bytes(...signature, ...chunk('IDAT'), ...chunk('acTL')))).toBe(false);
    const webp = (flags: number) => bytes('RIFF', 0, 0, 0, 0, 'WEBPVP8X', 10, 0, 0, 0, flags, 0, 0, 0);
    expect(isMoving(webp(0x02))).toBe(true);
    expect(isMoving(webp(0x10))).toBe(false);
    expect(isMoving(bytes('RIFF', 0, 0, 0, 0, 'WEBPVP8L'))).toBe(false);
    expect(isMoving(bytes(0xff, 0xd8, 0xff))).toBe(false);
    expect(isMoving(bytes())).toBe(false);
  });
});

describe('giving a fabric a picture', () => {
  it('leaves its name and its colour, or takes the colour that comes with it', () => {
    const given = givePicture(harbour, 'f1', picture);
    expect(fabricOf(given, 'f1')).toEqual({ ...harbour.fabrics[0], picture });
    expect(given.blocks).toBe(harbour.blocks);
    expect(fabricOf(givePicture(harbour, 'f1', picture, '#A0B0C0'), 'f1')?.color).toBe('#a0b0c0');
    expect(fabricOf(givePicture(harbour, 'f1', picture, 'blue'), 'f1')?.color).toBe('#1d3557');
  });

  it('changes nothing where there is no such fabric or no such picture', () => {
    expect(givePicture(harbour, 'f9', picture)).toBe(harbour);
    expect(givePicture(harbour, 'f1', { ...picture, data: 'x' })).toBe(harbour);
    expect(removePicture(harbour, 'f1')).toBe(harbour);
    expect(removePicture(harbour, 'f9')).toBe(harbour);
  });

  it('is taken back whole, and other edits of the fabric leave it', () => {
    const given = frozen(givePicture(harbour, 'f1', picture));
    expect(removePicture(given, 'f1')).toEqual(harbour);
    expect(fabricOf(updateFabric(given, 'f1', { name: 'Deep', color: '#000000' }), 'f1')).toEqual({
      id: 'f1',
      name: 'Deep',
      color: '#000000',
      picture,
    });
    expect(fabricOf(removeFabric(given, 'f1'), 'f1')).toBeUndefined();
  });
});

describe('pictures in the file', () => {
  it('come back as they went out, in the one canonical form', () => {
    const given = givePicture(harbour, 'f2', picture);
    const text = toText(given);
    const opened = openFile(text);
    expect(opened.ok && opened.project).toEqual(given);
    expect(opened.ok && toText(opened.project)).toBe(text);
  });

  it('are refused with the fabric and what is wrong with them', () => {
    const messageOf = (change: object): string => {
      const text = toText(givePicture(harbour, 'f2', picture));
      const json = JSON.parse(text) as { fabrics: { picture?: object }[] };
      Object.assign(json.fabrics[1]!.picture!, change);
      const opened = openFile(JSON.stringify(json));
      return opened.ok ? '' : opened.error.message;
    };
    expect(messageOf({ data: 'http://example.org/x.png' })).toBe(
      'Fabric 2 ‘Sand’: the data of the picture is not a PNG, JPEG or WebP picture written as data:image/…;base64,….',
    );
    expect(messageOf({ data: 7 })).toBe('Fabric 2 ‘Sand’: the data of the picture is not text.');
    expect(messageOf({ data: `data:image/png;base64,${'A'.repeat(PICTURE_LETTERS)}` })).toBe(
      'Fabric 2 ‘Sand’: the data of the picture is larger than the 1 MB allowed.',
    );
    expect(messageOf({ width: 0.5 })).toBe(
      'Fabric 2 ‘Sand’: the width of the picture is not a whole number from 1 to 4,096.',
    );
    expect(messageOf({ height: undefined })).toBe('Fabric 2 ‘Sand’: the height of the picture is missing.');
    expect(messageOf({ across: 1e9 })).toBe(
      'Fabric 2 ‘Sand’: the width of the piece in the picture is more than 120 in (3 m).',
    );
    expect(messageOf({ across: 'wide' })).toBe(
      'Fabric 2 ‘Sand’: the width of the piece in the picture is not a number.',
    );
  });

  it('are read and written alike, forty of them', () => {
    // A photo of 512 px is about 80 KB as JPEG: common practice.
    const photo = { ...picture, data: `data:image/jpeg;base64,${'Qk1x'.repeat(27_000)}` };
    const forty: Project = {
      ...harbour,
      fabrics: Array.from({ length: 40 }, (_, i) => ({
        id: `f${i + 1}`,
        name: `Bolt ${i + 1}`,
        color: '#808080',
        picture: { ...photo },
      })),
    };
    const text = toText(forty);
    expect(text.length).toBeGreaterThan(4_000_000);
    const opened = openFile(text);
    expect(opened.ok && toText(opened.project)).toBe(text);
  });
});

describe('a block with prints, taken elsewhere as SVG', () => {
  const given = givePicture(harbour, 'f1', picture);

  it('holds each picture once, a repeat of its true size, and still brings its lines back', () => {
    const svg = toSvgPicture(drawBlock(quarters, given.fabrics, 'colours', 12), 'Window');
    expect(svg.split('data:image').length - 1).toBe(1);
    expect(svg).toMatch(/<pattern [^>]*width="3" height="1.5"/);
    const block = importedFrom(svg);
    expect(sizeOf(block)).toEqual([12, 12]);
    expect(block.cuts).toHaveLength(2);
    expect(toSvgPicture(drawBlock(quarters, given.fabrics, 'lines', 12), 'Window')).not.toContain('pattern');
  });

  it.skipIf(!has('rsvg-convert') || !has('pdftoppm'))(
    'repeats at its true size in another renderer (needs rsvg-convert)',
    () => {
      // At half size a piece of 3 in is 1.5 in wide: dark and light change every 0.75 in across, 0.375 in down.
      for (const [widthIn, share] of [
        [12, 1],
        [6, 0.5],
      ] as const) {
        const svg = toSvgPicture(drawBlock(quarters, given.fabrics, 'colours', widthIn), 'Window');
        const dpi = 100;
        const page = renderPdf(runOn(svg, 'svg', 'rsvg-convert', ['-f', 'pdf', '{}']), dpi);
        const edge = 0.2 / 25.4;
        const isDark = (x: number, y: number): boolean =>
          page.at(Math.round((x * share + edge) * dpi), Math.round((y * share + edge) * dpi)) < 128;
        for (const [x, y] of [
          [0.4, 0.4],
          [3.4, 0.4],
          [0.4, 1.9],
          [1.9, 1.1],
          [4.9, 4.1],
        ] as const)
          expect(isDark(x, y), `${x}, ${y} at ${widthIn} in`).toBe(true);
        for (const [x, y] of [
          [1.9, 0.4],
          [4.9, 0.4],
          [0.4, 1.1],
          [3.4, 1.1],
          [4.9, 1.9],
        ] as const)
          expect(isDark(x, y), `${x}, ${y} at ${widthIn} in`).toBe(false);
      }
    },
  );
});
