/** The only door to the schema library. */
export { z } from "zod";
