import { useEffect, useRef, useState } from 'react';
import { readCode } from '../../document/coded-address.ts';
import type { Work } from '../../document/work.ts';
import { isRoundDone, paperIn, papersIn } from '../../rounds/work.ts';
import { phrase } from '../../words/phrase.ts';
import { Dialog } from '../dialog.tsx';
import { sewView } from './sew-state.ts';

/** How often the camera's picture is looked at, ms. */
const LOOK_MS = 150;
/** The picture is read at most so wide, pixels. */
const WIDEST_PX = 960;

/** Finds a paper by the code printed on it: read by the camera, or typed. Nothing of the picture is kept or sent. */
export function ScanDialog({ work }: { readonly work: Work }) {
  const video = useRef<HTMLVideoElement>(null);
  const [answer, setAnswer] = useState<string | null>(null);
  const [noCamera, setNoCamera] = useState<string | null>(null);
  const [typed, setTyped] = useState('');
  useEffect(() => {
    let isOver = false;
    const stop = watchCamera(
      video.current!,
      (text) => !isOver && setAnswer(openCoded(work, text)),
      (reason) => !isOver && setNoCamera(reason),
    );
    return () => {
      isOver = true;
      stop();
    };
  }, [work]);
  const close = (): void => sewView.setState({ isScanning: false });
  return (
    <Dialog title={phrase('Find a paper by its code')} className="sew-scan-dialog" onClose={close}>
      <video
        ref={video}
        className="sew-camera"
        muted
        playsInline
        aria-label={phrase('What the camera sees')}
      />
      <p role="status">
        {answer ?? noCamera ?? phrase('Hold the square code of a paper, or of a divider, before the camera.')}
      </p>
      <form
        className="sew-row"
        onSubmit={(event) => {
          event.preventDefault();
          setAnswer(openTyped(work, typed));
        }}
      >
        <label htmlFor="sew-code">{phrase('Or type the short code beside it')}</label>
        <input
          id="sew-code"
          className="text-input"
          data-first-focus
          autoComplete="off"
          value={typed}
          onChange={(event) => setTyped(event.target.value)}
        />
        <button type="submit" className="button">
          {phrase('[[verb]] Find')}
        </button>
      </form>
    </Dialog>
  );
}

/** Opens what a code stands for; says in a sentence where that cannot be. */
export function openCoded(work: Work, text: string): string | null {
  const coded = readCode(text);
  if (coded === null) return phrase('That code is not from a paper or divider of this app.');
  if ('fabric' in coded) {
    const waiting = work.rounds.findIndex(({ fabric }) => fabric === coded.fabric);
    if (waiting < 0) return phrase('No round in work takes that fabric.');
    sewView.setState({ isScanning: false, search: '', round: nextOf(work, coded.fabric) });
    return null;
  }
  if (paperIn(work, coded.paper) === null || !papersIn(work).includes(coded.paper))
    return phrase('That paper is not in work in this project.');
  sewView.setState({ isScanning: false, paper: coded.paper });
  return null;
}

/** The next round of a fabric that has something to do, or its last. */
function nextOf(work: Work, fabric: string): number {
  const own = work.rounds.flatMap((round, k) => (round.fabric === fabric ? [k] : []));
  return own.find((k) => !isRoundDone(work, k)) ?? own.at(-1)!;
}

function openTyped(work: Work, typed: string): string | null {
  const code = typed.trim().toLowerCase();
  if (code === '') return phrase('Type the code that stands beside the square one.');
  const found = papersIn(work).filter((paper) => paperIn(work, paper)!.section.stamp.toLowerCase() === code);
  if (found.length === 0) return phrase('No paper in work has the code ‘{code}’.', { code: typed.trim() });
  // Copies of one foundation bear one code: the list shows them all.
  if (found.length === 1) sewView.setState({ isScanning: false, paper: found[0]! });
  else sewView.setState({ isScanning: false, search: code });
  return null;
}

/** Reads codes from the camera until stopped. Uses the browser's own reader where it has one. */
function watchCamera(
  video: HTMLVideoElement,
  onText: (text: string) => void,
  onTrouble: (reason: string) => void,
): () => void {
  let stream: MediaStream | null = null;
  let timer: ReturnType<typeof setTimeout> | undefined;
  let isOver = false;
  const look = async (read: Reader): Promise<void> => {
    if (isOver) return;
    const text = video.readyState >= HTMLMediaElement.HAVE_CURRENT_DATA ? await read(video) : null;
    if (isOver) return;
    if (text !== null) onText(text);
    timer = setTimeout(() => void look(read), LOOK_MS);
  };
  const begin = async (): Promise<void> => {
    if (!navigator.mediaDevices?.getUserMedia)
      return onTrouble(phrase('This browser gives no camera here. Type the short code instead.'));
    try {
      stream = await navigator.mediaDevices.getUserMedia({ video: { facingMode: 'environment' } });
    } catch {
      return onTrouble(phrase('The camera was not given. Type the short code instead.'));
    }
    if (isOver) return stopped();
    video.srcObject = stream;
    await video.play().catch(() => undefined);
    await look(await readerAtHand());
  };
  const stopped = (): void => {
    for (const track of stream?.getTracks() ?? []) track.stop();
  };
  void begin();
  return () => {
    isOver = true;
    clearTimeout(timer);
    stopped();
  };
}

type Reader = (video: HTMLVideoElement) => Promise<string | null>;

interface OwnReader {
  detect(source: HTMLVideoElement): Promise<readonly { readonly rawValue: string }[]>;
}

async function readerAtHand(): Promise<Reader> {
  const Own = (globalThis as { BarcodeDetector?: new (options: { formats: string[] }) => OwnReader })
    .BarcodeDetector;
  if (Own) {
    try {
      const own = new Own({ formats: ['qr_code'] });
      return async (video) => (await own.detect(video))[0]?.rawValue ?? null;
    } catch {
      // It is there and knows no such codes.
    }
  }
  const { decodeQR } = await import('qr/decode.js');
  const canvas = document.createElement('canvas');
  return async (video) => {
    const scale = Math.min(1, WIDEST_PX / video.videoWidth);
    canvas.width = Math.round(video.videoWidth * scale);
    canvas.height = Math.round(video.videoHeight * scale);
    const context = canvas.getContext('2d', { willReadFrequently: true })!;
    context.drawImage(video, 0, 0, canvas.width, canvas.height);
    try {
      return decodeQR(context.getImageData(0, 0, canvas.width, canvas.height));
    } catch {
      // No code in sight.
      return null;
    }
  };
}
