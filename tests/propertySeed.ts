/**
 * Properties are tried on the same cases each time, so that a run can be repeated; `PROPERTY_SEED=random` tries new
 * ones, and any number those of that seed.
 */

import fc from 'fast-check'

const DEFAULT_SEED = 4271
const asked = process.env.PROPERTY_SEED ?? String(DEFAULT_SEED)
if (asked !== 'random') fc.configureGlobal({ seed: Number(asked) })
