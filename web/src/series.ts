/** The plots' numbers as the program sends them: columns; times in seconds before (−) and after contact. */
export interface Series {
  speedUnit: string;
  sinkUnit: string;
  powerUnit: string;
  heightUnit: string;
  heightPerMetre: number;
  deliveries: DeliverySeries[];
}

export interface DeliverySeries {
  number: number;
  path: Path;
  toGo: Record<"d" | "t" | "speed" | "sink", number[]> & { power?: (number | null)[] };
  swing?: Record<"t" | "fore" | "foreLow" | "foreHigh" | "right" | "rightLow" | "rightHigh", number[]>;
}

/** Hook and load, m; the bands are null where the load's place is not known. */
export type Path = Record<"t" | "east" | "north" | "along" | "height" | "loadEast" | "loadNorth" | "loadAlong" | "loadHeight", number[]>
  & Record<"loadEastBand" | "loadNorthBand" | "loadAlongBand", (number | null)[]>;

/** Index of the value nearest to `at` in ascending values. */
export function nearest(values: number[], at: number): number {
  const low = below(values, at);
  const high = Math.min(low + 1, values.length - 1);
  return Math.abs(values[low]! - at) <= Math.abs(values[high]! - at) ? low : high;
}

/** Index of the last of ascending values that is not above `at`; the first when all are. */
export function below(values: number[], at: number): number {
  let low = 0;
  let high = values.length - 1;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (values[middle]! <= at) low = middle;
    else high = middle;
  }
  return values.length > 0 && values[high]! <= at ? high : low;
}
