import { expect, it } from "vitest";
import { leadWords } from "../../src/report/changes/lead.js";
import type { Changes, Said } from "../../src/schema/changes.js";

const said = (quantity: string, monitor: string, topic: Said["topic"]): Said => ({
  ...{ topic, monitor, message: "", remedy: null, figures: null, size: null, quantity },
});
const lead = (says: Said[]): string => leadWords({ says, compares: "sessions" } as unknown as Changes);

it("A tone and the trust map that turned with it are one thing; a trust map alone still counts", () => {
  const says = [said("trust", "mains", "worse"), said("targetDb", "mains", "worse"), said("t30S", "mains", "better")];
  expect(lead(says)).toContain("One thing is better for certain, and one thing worse");
  expect(lead([said("trust", "mains", "worse")])).toContain("and one thing worse");
  expect(lead([said("trust", "mains", "worse"), said("targetDb", "nears", "worse")])).toContain("and two things worse");
});
