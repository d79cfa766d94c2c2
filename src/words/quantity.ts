import { decimalsOf, fixed, hertz, significant } from "./numbers.js";

/** A limit as it is stated: without decimals that nobody gave it. */
export function limitQuantity(value: number, unit: string | null, like: number): string {
  if (unit === "Hz") return hertz(value);
  const { unit: name, factor, decimals } = scaleOf(unit, Math.abs(like));
  const scaled = factor * value;
  // Limits in decibels are stated down to a quarter.
  const digits = unit === "dB" ? 2 : decimals;
  const rounded = Number(digits < 0 ? scaled.toPrecision(3) : scaled.toFixed(digits));
  const number = String(rounded).replace("-", "\u2212");
  return `${number}${name === "" ? "" : ` ${name}`}`;
}

/** Nothing is read to more decimals of a unit that is not known. */
const MOST_PLACES = 2;

interface Scale {
  readonly unit: string;
  readonly factor: number;
  readonly decimals: number;
}

/**
 * A figure of a finding with its unit, in the size that people say: milliseconds for a reflection, not thousandths.
 *
 * @param uncertainty - expanded, in the same unit; null where it is not known
 * @param like - what is written together is written in the size of this value
 * @example quantity(0.0009, 0.0001, "s", 0.0009) // "0.9 ± 0.1 ms"
 */
export function quantity(value: number, uncertainty: number | null, unit: string | null, like: number): string {
  if (unit === "Hz" && uncertainty === null) return hertz(value);
  const { unit: name, factor, decimals } = scaleOf(unit, Math.abs(like));
  // Beside its uncertainty a value has the decimals that the uncertainty is known to.
  const places = decimals >= 0 || !uncertainty ? decimals : Math.min(MOST_PLACES, decimalsOf(factor * uncertainty, 2));
  const spread = uncertainty === null ? "" : ` ± ${spreadText(factor * uncertainty, places)}`;
  const number = places < 0 ? significant(factor * value, 3) : fixed(factor * value, places);
  return `${number}${spread}${name === "" ? "" : ` ${name}`}`;
}

function spreadText(uncertainty: number, decimals: number): string {
  if (uncertainty === 0) return "0";
  const text = fixed(uncertainty, decimals);
  return Number(text) > 0 ? text : `under ${fixed(10 ** -decimals, decimals)}`;
}

function scaleOf(unit: string | null, size: number): Scale {
  if (unit === "dB") return { unit, factor: 1, decimals: 1 };
  if (unit === "s") {
    if (size < 0.0005) return { unit: "µs", factor: 1e6, decimals: 0 };
    if (size < 0.05) return { unit: "ms", factor: 1e3, decimals: 1 };
    return { unit, factor: 1, decimals: 2 };
  }
  if (unit === "%") return { unit, factor: 1, decimals: size < 10 ? 1 : 0 };
  // Three significant figures: nothing is known of the unit.
  return { unit: unit ?? "", factor: 1, decimals: -1 };
}
