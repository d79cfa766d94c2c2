import { expect, it } from "vitest";
import { saidGroups } from "../../src/report/changes/groups.js";
import type { Changes, Said } from "../../src/schema/changes.js";

const nine = (topic: Said["topic"], size: number | null): Said[] =>
  Array.from({ length: 9 }, (_, n) => ({
    ...{ topic, monitor: "mains", message: String(n), remedy: null, figures: null, size, quantity: "targetDb" },
  }));

it("Of more than eight things the rest is called smaller only where things have a size to stand in order by", () => {
  const says = [...nine("better", 3), ...nine("same", 0), ...nine("unknown", null)];
  const groups = saidGroups({ says, compares: "sessions" } as unknown as Changes);
  const rest = (id: Said["topic"]) => groups.find((group) => group.id === id)!.lists[1]!.heading;
  expect(rest("better")).toBe("2 more, smaller");
  expect(rest("same")).toBe("2 more");
  expect(rest("unknown")).toBe("2 more");
});
