import { fileNameFor } from '../../document/file-name.ts';
import { layOutBooklet } from '../booklet/booklet.ts';
import type { BookletPart } from '../booklet/parts.ts';
import type { PrintWork } from '../print-work.ts';
import type { SheetOptions } from '../sheet/sheet.ts';
import type { FullTypeface } from '../type/typeface.ts';
import { type PdfInfo, toPdf } from './pdf.ts';
import type { ZipEntry } from './zip.ts';

/**
 * The chosen parts of each block as a PDF of its own, one after the other. A block of which nothing is printed has
 * none. `info.beforeSheet` counts blocks here, and is called before each of them.
 */
export async function* blockPdfs(
  work: PrintWork,
  options: SheetOptions & { readonly typeface: FullTypeface },
  parts: ReadonlySet<BookletPart>,
  info: Omit<PdfInfo, 'title' | 'bookmarks'>,
): AsyncGenerator<ZipEntry> {
  const jobs = work.jobs.filter(({ copies }) => copies >= 1);
  const digits = String(jobs.length).length;
  for (const [i, job] of jobs.entries()) {
    await info.beforeSheet?.(i, jobs.length);
    const { sheets, bookmarks } = layOutBooklet({ ...work, jobs: [job] }, options, parts);
    if (sheets.length === 0) continue;
    yield {
      // Numbered, since two blocks may have one name.
      name: `${String(i + 1).padStart(digits, '0')} ${fileNameFor(job.block.name, '.pdf')}`,
      bytes: await toPdf(sheets, options.typeface, {
        title: `${work.project.name}: ${job.block.name}`,
        createdAt: info.createdAt,
        bookmarks,
      }),
      isPacked: true,
    };
  }
}
