import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { Ajv2020 } from "ajv/dist/2020.js";
import { describe, expect, it } from "vitest";
import { readSession } from "../../src/files/read-session.js";
import { sessionFiles } from "../../src/files/session-files.js";
import { analyse } from "../../src/pipeline.js";
import { publishedSchemas } from "../../src/schema/published.js";
import { changesFixture, monitorsFixture } from "../report/changes-fixture.js";

const read = (path: string): unknown =>
  JSON.parse(readFileSync(new URL(`../../${path}`, import.meta.url), "utf8")) as unknown;

/** An independent validator's list of what is wrong; empty when nothing is. */
function faults(name: string, value: unknown): unknown {
  const validate = new Ajv2020({ allErrors: true, strict: false }).compile(
    read(`src/schema/published/${name}`) as object,
  );
  return validate(value) ? [] : validate.errors;
}

describe("the published JSON Schemas", () => {
  it.each(publishedSchemas())("$name is what the program reads and writes by (npm run schemas)", ({ name, schema }) => {
    expect(read(`src/schema/published/${name}`)).toEqual(JSON.parse(JSON.stringify(schema)));
  });

  it("accept the sample session and its sweep", () => {
    expect(faults("session.schema.json", read("sample-audio/session.json"))).toEqual([]);
    expect(faults("sweep-recipe.schema.json", read("sample-audio/sweep.json"))).toEqual([]);
  });

  it("accept the results of the sample session, and refuse them with a key too many or one too few", async () => {
    const { session, folder } = await readSession(fileURLToPath(new URL("../../sample-audio", import.meta.url)));
    const { results } = await analyse(session, sessionFiles(folder), { version: "0" });
    expect(faults("results.schema.json", JSON.parse(JSON.stringify(results)))).toEqual([]);
    expect(faults("results.schema.json", { ...results, extra: 1 })).not.toEqual([]);
    expect(faults("results.schema.json", { ...results, measurements: undefined })).not.toEqual([]);
  });

  it("accept a comparison of two sessions and one of two monitors, and refuse one with a key too many", () => {
    for (const changes of [changesFixture(), monitorsFixture()]) {
      expect(faults("changes.schema.json", JSON.parse(JSON.stringify(changes)))).toEqual([]);
      expect(faults("changes.schema.json", { ...changes, extra: 1 })).not.toEqual([]);
    }
  });
});
