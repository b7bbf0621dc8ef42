import type { Work } from '../../document/work.ts';
import { patchCount } from '../../rounds/words.ts';
import { currentLocale } from '../../words/language.ts';
import { phrase } from '../../words/phrase.ts';

/** Days shown, the latest. */
const MOST_DAYS = 14;

/** What was sewn on each of the last days that saw any sewing. */
export function SewDays({ work }: { readonly work: Work }) {
  const days = Object.entries(work.days ?? {})
    .sort(([a], [b]) => (a < b ? 1 : -1))
    .slice(0, MOST_DAYS);
  if (days.length === 0) return null;
  const most = Math.max(...days.map(([, patches]) => patches));
  return (
    <section className="sew-card" aria-labelledby="sew-days-title">
      <h2 id="sew-days-title" className="panel-title">
        {phrase('Day by day')}
      </h2>
      <table className="sew-days">
        <caption className="only-heard">{phrase('Patches sewn each day')}</caption>
        <tbody>
          {days.map(([day, patches]) => (
            <tr key={day}>
              <th scope="row">{dayWords(day)}</th>
              <td className="sew-day-bar" aria-hidden="true">
                <span style={{ width: `${(100 * patches) / most}%` }} />
              </td>
              <td>{patchCount(patches)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}

function dayWords(day: string): string {
  const [year, month, date] = day.split('-').map(Number);
  const at = new Date(year ?? 0, (month ?? 1) - 1, date ?? 1);
  return Number.isNaN(at.getTime())
    ? day
    : at.toLocaleDateString(currentLocale(), {
        weekday: 'short',
        day: 'numeric',
        month: 'short',
      });
}
