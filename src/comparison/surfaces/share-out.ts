/**
 * Shares things seen out among things expected, each at most once, by how much likelier than chance each pair is.
 *
 * Two that fit one expected thing equally well get half a chance each, and so do two expected things that fit one that is seen.
 *
 * @param ratios - by what is seen, by what is expected: likelihood of the pair over that of the seen being something else; 0 where
 *   it cannot be
 * @returns chances, of the same shape; those of each row add up to 1 at most
 * @remarks Source: belief propagation for data association, J. L. Williams, R. A. Lau, IEEE Trans. Aerosp. Electron. Syst. 50 (2014),
 *   from memory. Exact where no ring of doubts closes.
 * @example shareOut([[8], [8]]) // [[8 / 17], [8 / 17]]
 */
export function shareOut(ratios: readonly Float64Array[]): Float64Array[] {
  const columns = ratios[0]?.length ?? 0;
  // Most of what is seen fits nothing.
  const rows = ratios.flatMap((values, row) => (values.some((value) => value > 0) ? [row] : []));
  const shares = shareOutRows(
    rows.map((row) => ratios[row]!),
    columns,
  );
  return ratios.map((_, row) => shares[rows.indexOf(row)] ?? new Float64Array(columns));
}

function shareOutRows(ratios: readonly Float64Array[], columns: number): Float64Array[] {
  // What each expected thing tells each seen one: the chance that no other seen one has it.
  const free = ratios.map(() => new Float64Array(columns).fill(1));
  const claims = ratios.map(() => new Float64Array(columns));
  for (let round = 0; round < ROUNDS; round++) {
    for (const [row, values] of ratios.entries()) {
      const whole = values.reduce((sum, value, k) => sum + value * free[row]![k]!, 1);
      for (let k = 0; k < columns; k++) {
        if (values[k]! > 0) claims[row]![k] = values[k]! / Math.max(1, whole - values[k]! * free[row]![k]!);
      }
    }
    for (let k = 0; k < columns; k++) {
      const whole = claims.reduce((sum, row) => sum + row[k]!, 1);
      for (const [row, values] of claims.entries()) free[row]![k] = 1 / Math.max(1, whole - values[k]!);
    }
  }
  return ratios.map((values, row) => {
    const whole = values.reduce((sum, value, k) => sum + value * free[row]![k]!, 1);
    return values.map((value, k) => (value * free[row]![k]!) / whole);
  });
}

/** Doubts seldom reach further than a few neighbours. */
const ROUNDS = 10;
