import { existsSync, readFileSync } from "node:fs";

/** Rows of a table in ../shared/reference, by column name; null where the table is absent. */
export function referenceTable(name: string): Record<string, string>[] | null {
  const file = new URL(`../../../shared/reference/${name}.csv`, import.meta.url);
  if (!existsSync(file)) return null;
  const [header, ...lines] = readFileSync(file, "utf8")
    .split(/\r?\n/)
    .filter((line) => line !== "" && !line.startsWith("#"));
  const columns = header!.split(",");
  return lines.map((line) => {
    const cells = line.split(",");
    return Object.fromEntries(columns.map((column, n): [string, string] => [column, cells[n] ?? ""]));
  });
}
