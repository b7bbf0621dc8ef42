import { cuttingTable } from '../../cutting/cutting-table.ts';
import { orderByValue } from '../../document/edit-cloth.ts';
import { fabricsToCsv, readFabricsCsv, tableText, takeInFabrics } from '../../document/fabric-csv.ts';
import { fileNameFor } from '../../document/file-name.ts';
import type { Project } from '../../document/project.ts';
import { phrase } from '../../words/phrase.ts';
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
  say('done', phrase('‘{name}’ is on its way to your downloads.', { name }));
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
      fabric: (id) => (id === null ? phrase('Without a fabric') : (fabricName.get(id) ?? id)),
      block: (id) => blockName.get(id) ?? id,
    },
  );
  save(csvName(project, phrase('cutting list')), tableText(rows));
}

async function importFabrics(file: File): Promise<void> {
  if (file.size > MOST_BYTES) {
    say('trouble', phrase('‘{file}’ is larger than the 5 MB a table may have.', { file: file.name }));
    return;
  }
  const { project } = session.getState();
  const table = readFabricsCsv(await file.text(), project.unit);
  if (table.fabrics.length === 0) {
    say(
      'trouble',
      phrase('‘{file}’ was not read. {trouble}', {
        file: file.name,
        trouble: table.troubles[0] ?? phrase('It names no fabrics.'),
      }),
    );
    return;
  }
  edit(phrase('Import fabrics'), (before) => takeInFabrics(before, table));
  const [first, ...more] = table.troubles;
  const count = phrase('{fabrics, plural, one {# fabric} other {# fabrics}}', {
    fabrics: table.fabrics.length,
  });
  if (first === undefined) say('done', phrase('{count} imported from ‘{file}’.', { count, file: file.name }));
  else
    say(
      'trouble',
      phrase(
        '{count} imported from ‘{file}’. {first}{isMore, select, true { And {more} more like it.} other {}}',
        { count, file: file.name, first, isMore: more.length > 0, more: more.length },
      ),
    );
}

/** What can be done with the list of fabrics as a whole. */
export function FabricActs() {
  return (
    <div className="buttons fabric-acts">
      <label className="button">
        {phrase('Import')}
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
        {phrase('Export')}
      </button>
      <button
        type="button"
        className="button"
        onClick={() => edit(phrase('Order fabrics by value'), orderByValue)}
      >
        {phrase('Light to dark')}
      </button>
      <button type="button" className="button" onClick={() => void exportCuttingList()}>
        {phrase('Cutting list as a table')}
      </button>
    </div>
  );
}
