import { spawnSync } from 'node:child_process';
import { piece } from '../../src/piecing/piece.ts';
import { designOf } from '../designs/designs.ts';
import { type BenchDesign, benchDesign } from './bench-design.ts';
import { type Patience, timeOf } from './measure.ts';
import { jstsFaces } from './peers.ts';

/** The whole plan of a block of 200 patches, beside the time others take for its faces alone. */
export interface Plan200 {
  readonly patches: number;
  readonly foundations: number;
  readonly planMs: number;
  readonly jsts: { readonly found: number; readonly ms: number };
  /** Null where python3 has no shapely. */
  readonly geos: { readonly found: number; readonly ms: number; readonly version: string } | null;
}

const PATCHES = 200;

export function benchPlan200(patience: Patience): Plan200 {
  const design = benchDesign(PATCHES, PATCHES);
  const block = {
    id: 'bench-200',
    name: 'Bench 200',
    outline: design.outline,
    cuts: design.lines.map(([from, to], i) => ({ id: `c${i + 1}`, from, to, role: 'auto' as const })),
    patches: [],
  };
  const plan = piece(block);
  return {
    patches: plan.patches.length,
    foundations: plan.sections.length,
    planMs: timeOf(() => piece(block), patience),
    jsts: { found: jstsFaces(design), ms: timeOf(() => jstsFaces(design), patience) },
    geos: geosFaces(design, patience),
  };
}

/** Lines past their ends by a hair, as for JSTS: an end that rounding moved off its line is no meeting for GEOS. */
const PYTHON = `
import json, statistics, sys, time
try:
    import shapely
    from shapely import geos
    from shapely.geometry import LineString
    from shapely.ops import polygonize, unary_union
except ImportError:
    sys.exit(3)
given = json.load(sys.stdin)
def past(a, b, by):
    length = ((b[0] - a[0]) ** 2 + (b[1] - a[1]) ** 2) ** 0.5
    u = ((b[0] - a[0]) * by / length, (b[1] - a[1]) * by / length)
    return [(a[0] - u[0], a[1] - u[1]), (b[0] + u[0], b[1] + u[1])]
ring = given["outline"]
def faces():
    lines = [LineString([a, b]) for a, b in zip(ring, ring[1:] + ring[:1])]
    lines += [LineString(past(a, b, 4 / 65536)) for a, b in given["lines"]]
    return len(list(polygonize(unary_union(lines))))
end = time.perf_counter() + given["warmUpMs"] / 1000
found = faces()
while time.perf_counter() < end:
    faces()
times = []
end = time.perf_counter() + given["measureMs"] / 1000
while len(times) < given["leastRuns"] or time.perf_counter() < end:
    start = time.perf_counter()
    faces()
    times.append((time.perf_counter() - start) * 1000)
# Shapely 2 tells the version itself, Shapely 1.8 keeps it with the library it loads.
version = getattr(shapely, "geos_version_string", None) or ".".join(map(str, geos.geos_version))
print(json.dumps({"found": found, "ms": statistics.median(times), "version": version}))
`;

/** Debian's packages serve Debian's own Python, which need not be the first on the search path. */
const PYTHONS = ['python3', '/usr/bin/python3'] as const;

function geosFaces({ outline, lines }: BenchDesign, patience: Patience): Plan200['geos'] {
  for (const python of PYTHONS) {
    const run = spawnSync(python, ['-c', PYTHON], {
      input: JSON.stringify({ outline, lines, ...patience }),
      encoding: 'utf8',
      timeout: 120_000,
    });
    if (run.status === 0) return JSON.parse(run.stdout) as NonNullable<Plan200['geos']>;
  }
  return null;
}

/** How many plans of a family are proven to be the fewest, and how long plans take. */
export interface ProvenRow {
  readonly family: string;
  readonly designs: number;
  /** Designs that straight joins cannot sew: no number is promised for them. */
  readonly setIn: number;
  /** Of the others: proven within the time allowed. */
  readonly proven: number;
  readonly medianMs: number;
  readonly p95Ms: number;
  readonly slowestMs: number;
}

export const ALLOWED_MS = 50;
const FAMILIES = ['chords', 'inward', 'lines', 'star', 'grid', 'floorplan'] as const;

/** Designs of up to 100 patches, by family. Each is pieced `leastRuns` times; the median counts. */
export function benchProven(designs: number, patience: Patience): ProvenRow[] {
  return FAMILIES.map((family) => {
    const times: number[] = [];
    let setIn = 0;
    let proven = 0;
    for (let seed = 1; seed <= designs; seed++) {
      const { block } = designOf(100_000 + seed, { kind: family, patches: [20, 100] });
      const plan = piece(block);
      const ms = timeOf(() => piece(block), patience);
      times.push(ms);
      if (plan.verdict === 'set-in-seams') setIn++;
      else if (plan.fewest && ms <= ALLOWED_MS) proven++;
    }
    times.sort((a, b) => a - b);
    const share = (part: number): number =>
      times[Math.min(times.length - 1, Math.floor(part * times.length))]!;
    return {
      family,
      designs,
      setIn,
      proven,
      medianMs: share(0.5),
      p95Ms: share(0.95),
      slowestMs: times.at(-1)!,
    };
  });
}
