import { useEffect, useRef, useState } from 'react';
import { phrase } from '../../words/phrase.ts';
import type { Zoom } from '../../workspace/paper-settings.ts';
import type { LaidOut } from '../../workspace/pdf-client.ts';
import { sheetSvg } from '../../workspace/pdf-client.ts';

interface SheetPreviewProps {
  readonly layout: LaidOut;
  readonly zoom: Zoom;
  /** Whether newer ones are on their way. */
  readonly isOld: boolean;
}

/** So many sheets are shown at first, and as many more each time they are asked for. */
const AT_ONCE = 100;

const COMING = {
  first: phrase('The other sheets are being laid out …'),
  look: phrase('A first look, not a sheet to print: how the papers share sheets is still being worked out …'),
} as const;

/** The sheets as they will print, each drawn when it comes into sight. */
export function SheetPreview({ layout, zoom, isOld }: SheetPreviewProps) {
  const [most, setMost] = useState(AT_ONCE);
  const { sheets, stage } = layout;
  const more = Math.min(AT_ONCE, sheets.length - most);
  return (
    <>
      {stage === 'look' && <p className="paper-coming">{COMING.look}</p>}
      <ol className={`sheets sheets-${zoom}${isOld || stage === 'look' ? ' sheets-passing' : ''}`}>
        {sheets.slice(0, most).map((sheet, i) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: a sheet is known by its number alone
          <li key={i} className="sheet-item">
            <SheetDrawing
              layout={layout.number}
              index={i}
              {...sheet}
              promise={stage === 'look' ? phrase('a first look') : phrase('as it will print')}
              early={i === 0 ? layout.firstSvg : ''}
            />
            <p className="sheet-title">{sheet.title}</p>
          </li>
        ))}
      </ol>
      {stage === 'first' && <p className="paper-coming">{COMING.first}</p>}
      {more > 0 && (
        <button type="button" className="button paper-more" onClick={() => setMost(most + AT_ONCE)}>
          {phrase('Show {more} more sheets', { more })}
        </button>
      )}
    </>
  );
}

interface SheetDrawingProps {
  readonly layout: number;
  readonly index: number;
  /** Inches. */
  readonly width: number;
  readonly height: number;
  readonly title: string;
  /** What the drawing is to the print. */
  readonly promise: string;
  /** The drawing where it came with the layout, else empty. */
  readonly early: string;
}

function SheetDrawing({ layout, index, width, height, title, promise, early }: SheetDrawingProps) {
  const place = useRef<HTMLDivElement>(null);
  const [isNear, setNear] = useState(false);
  const [svg, setSvg] = useState('');
  useEffect(() => {
    const element = place.current;
    if (!element) return;
    const watch = new IntersectionObserver(([entry]) => setNear(entry?.isIntersecting ?? false), {
      rootMargin: '800px 0px',
    });
    watch.observe(element);
    return () => watch.disconnect();
  }, []);
  useEffect(() => {
    if (!isNear || early !== '') return;
    let isCurrent = true;
    void sheetSvg(layout, index).then((text) => {
      if (isCurrent && text !== '') setSvg(text);
    });
    return () => {
      isCurrent = false;
    };
  }, [isNear, layout, index, early]);
  return (
    <div
      ref={place}
      className="sheet"
      role="img"
      aria-label={`${title}, ${promise}`}
      style={{ aspectRatio: `${width} / ${height}`, ['--true-width' as string]: `${width}in` }}
      // biome-ignore lint/security/noDangerouslySetInnerHtml: the drawing is made by toSvg, which escapes every text
      dangerouslySetInnerHTML={{ __html: early !== '' ? early : isNear ? svg : '' }}
    />
  );
}
