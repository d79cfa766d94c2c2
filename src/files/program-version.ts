import { readFile } from "node:fs/promises";

/** The version of this program, as package.json has it. */
export async function programVersion(): Promise<string> {
  const text = await readFile(new URL("../../package.json", import.meta.url), "utf8");
  return (JSON.parse(text) as { version: string }).version;
}
