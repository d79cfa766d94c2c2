type Grade = "believe" | "care" | "blind";

/**
 * What reasons make of a band of the trust map: the worst that one of them says; there is no sum of reasons.
 *
 * @returns null where one of them is that nothing is known
 */
export function gradeOf(reasons: readonly { readonly grade: "care" | "blind" | null }[]): Grade | null {
  const grades = reasons.map(({ grade }) => grade);
  if (grades.includes(null)) return null;
  return grades.includes("blind") ? "blind" : grades.includes("care") ? "care" : "believe";
}
