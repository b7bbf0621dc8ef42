import { openFile } from '../../src/document/file.ts';
import { EMPTY_PROJECT, type Project } from '../../src/document/project.ts';
import { toText } from '../../src/document/to-text.ts';
import { type Patience, timeOf } from './measure.ts';

export interface FileRow {
  readonly megabytes: number;
  readonly openMs: number;
  readonly parseMs: number;
  readonly writeMs: number;
  readonly stringifyMs: number;
}

/** A project of forty photographed fabrics opened and written, against JSON.parse and JSON.stringify of the same text. */
export function benchPicturesInFile(patience: Patience): FileRow {
  // A photo of 512 px is about 80 KB as JPEG: common practice.
  const data = `data:image/jpeg;base64,${'Qk1x'.repeat(27_000)}`;
  const project: Project = {
    ...EMPTY_PROJECT,
    fabrics: Array.from({ length: 40 }, (_, i) => ({
      id: `f${i + 1}`,
      name: `Bolt ${i + 1}`,
      color: '#808080',
      picture: { data, width: 512, height: 512, across: 10 },
    })),
  };
  const text = toText(project);
  const parsed: unknown = JSON.parse(text);
  return {
    megabytes: text.length / 1e6,
    openMs: timeOf(() => openFile(text), patience),
    parseMs: timeOf(() => JSON.parse(text), patience),
    writeMs: timeOf(() => toText(project), patience),
    stringifyMs: timeOf(() => JSON.stringify(parsed), patience),
  };
}
