/** The planned path as the program sends it: columns; m, m/s, s; along the course, right of it, up from the spot's ground. */
export interface ApproachPath {
  courseDeg: number;
  loadHeightM: number;
  rotorRadiusM: number;
  startM: number;
  stopS: number;
  units: { height: string; heightPerM: number; speed: string; speedPerMs: number; sink: string; sinkPerMs: number; sinkStep: number; power: string };
  timeS: number[];
  hookAlongM: number[];
  hookRightM: number[];
  hookUpM: number[];
  loadAlongM: number[];
  loadRightM: number[];
  loadUpM: number[];
  groundMs: number[];
  airMs: number[];
  sinkMs: number[];
  altimeterFt: number[];
  power?: number[];
  marks: { name: string; distanceM: number; hookUpM: number }[];
  obstacles: { name: string; at: [number, number, number]; topM: number }[];
  wires: { name: string; from: [number, number, number]; to: [number, number, number]; topM?: number }[];
  people: { name: string; at: [number, number, number] }[];
  windFromDeg?: number;
  ground?: { stepM: number; half: number; upM: (number | null)[] };
}

/** East and north of a place along the course and right of it. */
export function eastNorth(path: ApproachPath, along: number, right: number): [number, number] {
  const course = (path.courseDeg * Math.PI) / 180;
  const sin = Math.sin(course);
  const cos = Math.cos(course);
  return [along * sin + right * cos, along * cos - right * sin];
}

/** Sample nearest to a distance before the spot; of the samples at rest over it, the first. */
export function sampleAt(path: ApproachPath, beforeM: number): number {
  let best = 0;
  let least = Infinity;
  path.hookAlongM.forEach((along, i) => {
    const off = Math.abs(-along - beforeM);
    if (off < least - 0.05) { least = off; best = i; }
  });
  return best;
}

/** Sample nearest to a time from the start mark. */
export function sampleAtTime(path: ApproachPath, timeS: number): number {
  const i = path.timeS.findIndex((t) => t >= timeS);
  return i < 0 ? path.timeS.length - 1 : i;
}

/** What a pilot reads at a sample, in one line. */
export function words(path: ApproachPath, i: number): string {
  const u = path.units;
  const before = -path.hookAlongM[i]!;
  const place = before >= 1 ? `${before.toFixed(0)} m before the spot` : before > -1 ? "over the spot" : `${(-before).toFixed(0)} m past the spot`;
  const sink = Math.round((path.sinkMs[i]! * u.sinkPerMs) / u.sinkStep) * u.sinkStep;
  const parts = [
    place,
    `altimeter ${path.altimeterFt[i]!.toFixed(0)} ft`,
    `hook ${height(path, path.hookUpM[i]!)}, load ${height(path, Math.max(0, path.loadUpM[i]!))} over the spot's ground`,
    `${(path.groundMs[i]! * u.speedPerMs).toFixed(0)} ${u.speed} over the ground, ${(path.airMs[i]! * u.speedPerMs).toFixed(0)} ${u.speed} through the air`,
    sink >= 0 ? `sink ${clean(sink, u.sinkStep)} ${u.sink}` : `climb ${clean(-sink, u.sinkStep)} ${u.sink}`,
  ];
  if (path.power) parts.push(`power ${path.power[i]!.toFixed(0)} ${u.power}`);
  return parts.join("; ");
}

function height(path: ApproachPath, m: number): string {
  return `${(m * path.units.heightPerM).toFixed(0)} ${path.units.height}`;
}

function clean(value: number, step: number): string {
  return Math.abs(value).toFixed(step < 1 ? 1 : 0);
}
