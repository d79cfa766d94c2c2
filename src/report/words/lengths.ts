import { fixed, significant } from "../../words/numbers.js";

/** A length as one measures it in a room: 8.6 cm, 74 cm, 1.5 m. */
export function length(metres: number): string {
  const size = Math.abs(metres);
  if (size < 0.0995) return `${fixed(100 * metres, 1)} cm`;
  return size < 0.995 ? `${fixed(100 * metres, 0)} cm` : `${significant(metres, 2)} m`;
}
