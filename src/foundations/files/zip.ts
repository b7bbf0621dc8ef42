import { Zip, ZipDeflate, ZipPassThrough } from 'fflate';

/** A moment as the zip library wants it; made by the caller, since nothing here reads a clock. */
type Moment = NonNullable<ZipPassThrough['mtime']>;

/** A file to be put into an archive. */
export interface ZipEntry {
  readonly name: string;
  readonly bytes: Uint8Array;
  /** Whether it is packed smaller; PDF and PNG files are already. */
  readonly isPacked: boolean;
}

/** One archive of files that come one after the other, so that only one of them need be whole at a time. */
export async function zipOf(entries: AsyncIterable<ZipEntry>, at: Moment): Promise<Uint8Array> {
  const chunks: Uint8Array[] = [];
  const failures: Error[] = [];
  const zip = new Zip((failure, chunk) => {
    if (failure) failures.push(failure);
    else chunks.push(chunk);
  });
  for await (const { name, bytes, isPacked } of entries) {
    const file = isPacked ? new ZipPassThrough(name) : new ZipDeflate(name, { level: 6 });
    file.mtime = at;
    zip.add(file);
    file.push(bytes, true);
  }
  zip.end();
  if (failures[0]) throw failures[0];
  const bytes = new Uint8Array(chunks.reduce((sum, chunk) => sum + chunk.byteLength, 0));
  let written = 0;
  for (const chunk of chunks) {
    bytes.set(chunk, written);
    written += chunk.byteLength;
  }
  return bytes;
}
