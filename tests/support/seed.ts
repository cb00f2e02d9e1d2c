/**
 * Property tests try the same documents on every run, so that a run says something of the change at hand and not of
 * luck. `PROPERTY_SEED=random` (or a number) explores others; a failure prints its seed.
 */
import fc from "fast-check";

const wanted = process.env.PROPERTY_SEED ?? "20261125";
if (wanted !== "random") fc.configureGlobal({ seed: Number(wanted) });
