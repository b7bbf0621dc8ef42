import { useEffect, useRef, useState } from 'react';
import type { LaidOut } from '../../workspace/pdf-client.ts';
import { sheetSvg } from '../../workspace/pdf-client.ts';
import type { Zoom } from './paper-settings.ts';

interface SheetPreviewProps {
  readonly layout: LaidOut;
  readonly zoom: Zoom;
}

/** So many sheets are shown at first, and as many more each time they are asked for. */
const AT_ONCE = 100;

/** The sheets as they will print, each drawn when it comes into sight. */
export function SheetPreview({ layout, zoom }: SheetPreviewProps) {
  const [most, setMost] = useState(AT_ONCE);
  const more = Math.min(AT_ONCE, layout.sheets.length - most);
  return (
    <>
      <SheetList layout={layout} zoom={zoom} most={most} />
      {!layout.isWhole && <p className="paper-coming">The other sheets are being laid out …</p>}
      {more > 0 && (
        <button type="button" className="button paper-more" onClick={() => setMost(most + AT_ONCE)}>
          Show {more} more sheets
        </button>
      )}
    </>
  );
}

function SheetList({ layout, zoom, most }: SheetPreviewProps & { readonly most: number }) {
  return (
    <ol className={`sheets sheets-${zoom}`}>
      {layout.sheets.slice(0, most).map(({ width, height, title }, i) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: a sheet is known by its number alone
        <li key={i} className="sheet-item">
          <SheetDrawing
            layout={layout.number}
            index={i}
            width={width}
            height={height}
            title={title}
            early={i === 0 ? layout.firstSvg : ''}
          />
          <p className="sheet-title">{title}</p>
        </li>
      ))}
    </ol>
  );
}

interface SheetDrawingProps {
  readonly layout: number;
  readonly index: number;
  /** Inches. */
  readonly width: number;
  readonly height: number;
  readonly title: string;
  /** The drawing where it came with the layout, else empty. */
  readonly early: string;
}

function SheetDrawing({ layout, index, width, height, title, early }: SheetDrawingProps) {
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
      aria-label={`${title}, as it will print`}
      style={{ aspectRatio: `${width} / ${height}`, ['--true-width' as string]: `${width}in` }}
      // biome-ignore lint/security/noDangerouslySetInnerHtml: the drawing is made by toSvg, which escapes every text
      dangerouslySetInnerHTML={{ __html: early !== '' ? early : isNear ? svg : '' }}
    />
  );
}
