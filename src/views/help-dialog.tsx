import { EMPTY_PROJECT } from '../document/project.ts';
import { phrase } from '../words/phrase.ts';
import { type Command, keyText, type PartKeys } from '../workspace/command.ts';
import { freshSession } from '../workspace/session.ts';
import { EVERYWHERE } from './command-list.ts';
import { Dialog } from './dialog.tsx';
import { Phrase } from './phrase.tsx';
import { PLACES } from './places.ts';
import { isMac } from './platform.ts';

/** Labels name what a command does in general, not what it would do to the work at hand. */
const FRESH = freshSession(EMPTY_PROJECT);

/** How to draw, read the check and print, in few words; then every key, from the command lists themselves. */
export default function HelpDialog({ onClose }: { readonly onClose: () => void }) {
  return (
    <Dialog title={phrase('How Underpaper works')} className="help" onClose={onClose}>
      <div className="help-text">
        <section>
          <h3>{phrase('Draw')}</h3>
          <p>
            <Phrase text="Take the <b>Line</b> tool and drag from one edge to another, or click both ends. The pointer is caught by corners, lines, crossings and the grid, and says by what. <b>Select</b> moves a line, its joints, a corner or an edge of the outline; what ends on a moved line stays on it. Hold Alt and nothing catches, and an end leaves its joint. While a line or an outline runs, type a length, Tab, an angle; T types a place. With a finger, switches stand for Shift and Alt, and two fingers move the sheet; beside a pen the hand may rest." />
          </p>
          <p>
            <Phrase text="<b>Chain</b> goes on from click to click, straight, in arcs or rounded. <b>Shorten</b> takes a stretch of a line away, or extends its end to the next line. While a symmetry is on (S), all of it happens at every image. K shows the block plain, without marks. A menu at the pointer says what can be done there: press the right button, hold a finger down with <b>Select</b>, or press the menu key. Several chosen lines are turned and sized by the handles round them, copied with their fabrics, and kept as <b>motifs</b> for every project in this browser." />
          </p>
        </section>
        <div className="help-column">
          <section>
            <h3>{phrase('Read the check')}</h3>
            <p>
              {phrase(
                'Beside the drawing stands whether it can be sewn: on how many foundations, in which order, and where they are joined. A1, A2, A3 are sewn in this order on foundation A. Red stitched lines are joins; ringed crosses are the places where pins go. Press a finding to go to its place.',
              )}
            </p>
          </section>
          <section>
            <h3>{phrase('Take care')}</h3>
            <p>
              {phrase(
                'Close the cutter’s blade after every cut and cut away from you. Take pins out before the needle reaches them, keep fingers clear of it, and guard your eyes: a needle that meets a pin can break. Keep magnets from children, since two that are swallowed can kill. Hands off the steam; unplug the iron when you leave it. Spray and glue in moving air. What the makers say of their tools goes before this.',
              )}
            </p>
            {import.meta.env.PROD && (
              <p>
                <a href="./licences.txt" target="_blank" rel="noreferrer">
                  {phrase('Licences')}
                </a>
              </p>
            )}
          </section>
        </div>
        <section>
          <h3>{phrase('Print')}</h3>
          <p>
            <Phrase text="In <b>Paper</b> the foundations lie mirrored on their sheets, as they are sewn from the printed side. Print at 100%, actual size, and measure the test square before you cut cloth: 1 in (25.4 mm) each way." />
          </p>
          <p>
            {phrase(
              'On request: joining guide, cover, line drawings, cutting templates, labels for piles, cautions. Typed measurements of the 50 mm lines correct the printer.',
            )}
          </p>
        </section>
        <section>
          <h3>{phrase('From a picture')}</h3>
          <p>
            <Phrase text="A photo or scan can lie under the drawing: drop it on the board, paste it, or choose it in <b>Aids</b>. Put its four handles on the corners of the block and it is straightened. It is never printed." />
          </p>
          <p>
            <Phrase text="A fabric can have a picture of its cloth, by <b>Add a picture</b> below its name: the print is seen at its true size in the block, on the cover and on labels for piles. Foundations keep to the fabric’s colour or hatching, which saves ink." />
          </p>
        </section>
      </div>
      <p className="soft">
        {phrase(
          'Letters, digits and signs by themselves act while the drawing, its tools or its fabrics have the keyboard. The menu at the top can switch them off.',
        )}
      </p>
      <div className="help-keys">
        <div className="help-column">
          <KeyTable title={phrase('Anywhere')} rows={keyRows(EVERYWHERE)} />
        </div>
        {PLACES.map(({ name, label, commands, partKeys }) => (
          <div key={name} className="help-column">
            {keyRows(commands).length > 0 && (
              <KeyTable title={phrase('In {label}', { label })} rows={keyRows(commands)} />
            )}
            {partKeys.map(({ title, keys }) => (
              <KeyTable key={title} title={title} rows={keys} />
            ))}
          </div>
        ))}
      </div>
    </Dialog>
  );
}

type KeyRow = PartKeys['keys'][number];

/** Those of some commands that have a key. */
const keyRows = (commands: readonly Command[]): readonly KeyRow[] =>
  commands.flatMap(({ label, keys: [key] }) =>
    key === undefined ? [] : [{ does: label(FRESH), shown: keyText(key, isMac()) }],
  );

function KeyTable({ title, rows }: { readonly title: string; readonly rows: readonly KeyRow[] }) {
  return (
    <section>
      <h3>{title}</h3>
      <dl className="keys">
        {rows.map(({ shown, does }) => (
          <div key={does}>
            <dt>
              <kbd>{shown}</kbd>
            </dt>
            <dd>{does}</dd>
          </div>
        ))}
      </dl>
    </section>
  );
}
