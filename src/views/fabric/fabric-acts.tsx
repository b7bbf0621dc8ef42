import { cuttingTable } from '../../cutting/cutting-table.ts';
import { orderByValue } from '../../document/edit-cloth.ts';
import { fabricsToCsv, readFabricsCsv, tableText, takeInFabrics } from '../../document/fabric-csv.ts';
import { fileNameFor } from '../../document/file-name.ts';
import type { Project } from '../../document/project.ts';
import { edit, say } from '../../workspace/actions.ts';
import { cutsOfFabric, cuttings } from '../../workspace/cutting-client.ts';
import { download } from '../../workspace/files.ts';
import { session } from '../../workspace/session.ts';

/** Largest table that is read, bytes. */
const MOST_BYTES = 5_000_000;

const csvName = (project: Project, what: string): string =>
  fileNameFor(project.name).replace(/\.underpaper\.json$/, ` ${what}.csv`);

const save = (name: string, text: string): void => {
  download(name, new Blob([text], { type: 'text/csv;charset=utf-8' }));
  say('done', `‘${name}’ is on its way to your downloads.`);
};

function exportFabrics(): void {
  const { project } = session.getState();
  save(csvName(project, 'fabrics'), fabricsToCsv(project.fabrics, project.unit));
}

/** The cutting list of every fabric, a row a cut. */
async function exportCuttingList(): Promise<void> {
  const { project } = session.getState();
  const { sum } = cuttings.getState();
  if (!sum) return;
  const found = await Promise.all(sum.fabrics.map(({ fabric }) => cutsOfFabric(sum.number, fabric)));
  const fabricName = new Map(project.fabrics.map(({ id, name }) => [id, name]));
  const blockName = new Map(project.blocks.map(({ id, name }) => [id, name]));
  const rows = cuttingTable(
    found.flatMap((one) => (one ? [one.plan] : [])),
    project.unit,
    {
      fabric: (id) => (id === null ? 'Without a fabric' : (fabricName.get(id) ?? id)),
      block: (id) => blockName.get(id) ?? id,
    },
  );
  save(csvName(project, 'cutting list'), tableText(rows));
}

async function importFabrics(file: File): Promise<void> {
  if (file.size > MOST_BYTES) {
    say('trouble', `‘${file.name}’ is larger than the 5 MB a table may have.`);
    return;
  }
  const { project } = session.getState();
  const table = readFabricsCsv(await file.text(), project.unit);
  if (table.fabrics.length === 0) {
    say('trouble', `‘${file.name}’ was not read. ${table.troubles[0] ?? 'It names no fabrics.'}`);
    return;
  }
  edit('Import fabrics', (before) => takeInFabrics(before, table));
  const [first, ...more] = table.troubles;
  const count = `${table.fabrics.length} ${table.fabrics.length === 1 ? 'fabric' : 'fabrics'}`;
  if (first === undefined) say('done', `${count} taken in from ‘${file.name}’.`);
  else
    say(
      'trouble',
      `${count} taken in from ‘${file.name}’. ${first}${more.length > 0 ? ` And ${more.length} more like it.` : ''}`,
    );
}

/** What can be done with the list of fabrics as a whole. */
export function FabricActs() {
  return (
    <div className="buttons fabric-acts">
      <label className="button">
        Import
        <input
          type="file"
          className="only-heard"
          accept=".csv,text/csv,text/plain"
          onChange={(event) => {
            const file = event.target.files?.[0];
            event.target.value = '';
            if (file) void importFabrics(file);
          }}
        />
      </label>
      <button type="button" className="button" onClick={exportFabrics}>
        Export
      </button>
      <button type="button" className="button" onClick={() => edit('Order fabrics by value', orderByValue)}>
        Light to dark
      </button>
      <button type="button" className="button" onClick={() => void exportCuttingList()}>
        Cutting list as a table
      </button>
    </div>
  );
}
