/** The plots' numbers as the program sends them: columns; times in seconds before (−) and after contact. */
export interface Series {
  speedUnit: string;
  sinkUnit: string;
  powerUnit: string;
  deliveries: DeliverySeries[];
}

export interface DeliverySeries {
  number: number;
  path: Record<"t" | "east" | "north" | "along" | "height" | "loadAlong" | "loadHeight", number[]>;
  toGo: Record<"d" | "t" | "speed" | "sink", number[]> & { power?: (number | null)[] };
  swing?: Record<"t" | "fore" | "foreLow" | "foreHigh" | "right" | "rightLow" | "rightHigh", number[]>;
}

/** Index of the value nearest to `at` in ascending values. */
export function nearest(values: number[], at: number): number {
  let low = 0;
  let high = values.length - 1;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (values[middle]! < at) low = middle;
    else high = middle;
  }
  return Math.abs(values[low]! - at) <= Math.abs(values[high]! - at) ? low : high;
}
