/** One comparison of the program with published values: a row of the table in DEVELOPERS.md. */
export interface Check {
  readonly what: string;
  /** Standard or paper with its clause; "from memory" where nobody looked it up. */
  readonly source: string;
  readonly published: string;
  readonly computed: string;
  /** What is left of what is allowed; below 0 the row fails. */
  readonly margin: number;
  readonly unit: string;
}

/** Half the last printed digit, and the rounding of the comparison itself. */
const HALF_DIGIT = 0.5 * (1 + 1e-9);

/** A published number holds to half its last printed digit. */
export function equal(
  what: string,
  source: string,
  published: number,
  digits: number,
  computed: number,
  unit: string,
): Check {
  return {
    what,
    source,
    published: published.toFixed(digits),
    computed: computed.toFixed(digits + 1),
    margin: HALF_DIGIT * 10 ** -digits - Math.abs(computed - published),
    unit,
  };
}

/** A whole published table holds to half its last printed digit; the row shows the worst place. */
export function equalTable(
  what: string,
  source: string,
  rows: readonly (readonly [name: string, published: number, computed: number])[],
  digits: number,
  unit: string,
): Check {
  const off = rows.map(([, published, computed]) => Math.abs(computed - published));
  const worst = off.indexOf(Math.max(...off));
  const [name, published, computed] = rows[worst]!;
  return {
    ...equal(what, source, published, digits, computed, unit),
    what: `${what}: ${rows.length} values, worst at ${name}`,
  };
}

/** A value keeps a published limit at every place; the row shows the place that comes nearest to it. */
export function inside(
  what: string,
  source: string,
  places: readonly { name: string; least: number; most: number; computed: number }[],
  digits: number,
  unit: string,
): Check {
  const margins = places.map(({ least, most, computed }) => Math.min(computed - least, most - computed));
  const nearest = margins.indexOf(Math.min(...margins));
  const { name, least, most, computed } = places[nearest]!;
  return {
    what: `${what}: ${places.length} places, nearest at ${name}`,
    source,
    published: Number.isFinite(most) ? `${least} to ${most}` : `at least ${least}`,
    computed: computed.toFixed(digits),
    margin: margins[nearest]!,
    unit,
  };
}
