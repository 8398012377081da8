import { z } from 'zod';
import { duration, id, mapOf, moment, quantityText, sourced, text } from './basics.ts';
import { EXPLANATIONS } from './explanations.ts';

const donorKind = z.enum([
  'new-unit',
  'makers-spare',
  'used-genuine',
  'salvaged-locked-unit',
  'compatible',
  'refurbished',
]);
const homeLock = z
  .enum(['none', 'locked', 'lost', 'unknown'])
  .describe('whether the unit the piece came from is locked to an account or reported lost');
const maySay = z.boolean().optional();

/** Where a swapped-in part came from; the same `item` is the same physical piece. */
const donor = z.strictObject({
  kind: donorKind,
  item: id
    .optional()
    .describe(
      'which physical piece: one of swapBench/donors, where these are listed; missing is the own part of specimen',
    ),
  specimen: id.optional().describe('the specimen whose own part it is'),
  spare: id.optional().describe('the spare as sold that it is'),
  marking: text.optional(),
  revision: text.optional().describe('part revision as marked on it; missing is not read'),
  homeLock: homeLock.optional(),
});

/** What the software says of a fitted part, and how it may be put away. */
const notice = z.strictObject({
  wording: text,
  where: text.optional().describe('lock screen, settings page and so on'),
  about: z
    .enum(['identity', 'condition', 'other'])
    .optional()
    .describe("what it speaks of: the part's identity, its condition"),
  misleading: maySay.describe('a judgement on its wording, for a part known to be good'),
  dismissible: maySay.describe('can be put away at once'),
  dismissedAt: moment.optional(),
  returns: text.optional().describe('when it comes again: after a restart, after 24 h, not again'),
});

/** A function measured with the own and with the fitted part. */
const reduction = z.strictObject({
  of: text.describe('which function'),
  before: quantityText.optional().describe('with the own part, e.g. "412 ± 6 mW"'),
  after: quantityText.optional().describe('with the fitted part'),
});

/** What a step asks for, and who may take it. */
const stepTerms = {
  by: z.enum(['owner', 'professional', 'makers-network']).optional().describe('the widest circle that may do it'),
  network: maySay.describe('needs a network'),
  cost: quantityText.optional(),
  account: maySay.describe('needs an account with the maker'),
};

/** The step by which the part was made known to the software. */
const pairing = z.strictObject({
  remote: z.enum(['none', 'notification', 'authorisation']).optional().describe('none: done on the device alone'),
  ...stepTerms,
});

const setting = {
  account: text.optional(),
  network: z.boolean().optional(),
  charge: quantityText.optional(),
  closed: z.boolean().optional(),
  grounded: maySay.describe('shields and grounding springs back in place at the start'),
  soak: duration.optional().describe('how long was waited before the list was gone through'),
  settled: maySay.describe('the soak was waited for and gauge or cache reset as laid down'),
};

/** One fit of a part into a specimen, for the question whether the software takes it. Never rewritten: a correction is a new one. */
export const swap = z.strictObject({
  specimen: id.describe('the host'),
  part: id.describe('place in the product'),
  fitted: z.enum(['own', 'foreign']).optional(),
  donor: donor.optional(),
  arm: z
    .enum([
      'baseline',
      'refit-control',
      'cross',
      'swap-back',
      'replicate',
      'authorised',
      'calibrated',
      'identity-moved',
      'firmware',
    ])
    .optional()
    .describe('stage of the protocol'),
  run: z
    .int()
    .min(0)
    .max(100_000)
    .optional()
    .describe('number of the run, in the order of the runs; fits made in one run of one specimen share it'),
  on: moment.optional(),
  session: id.optional().describe('session in which it was made'),
  entry: id.optional().describe('entry of that session'),
  at: z.number().min(0).max(1e8).optional().describe('seconds in the session'),
  operator: text.optional(),
  firmware: text.optional(),
  effect: z
    .enum(['E0', 'E1', 'E2', 'E3', 'E4', 'E5', 'E6', 'E7'])
    .optional()
    .describe('E0 no trace to E7 own part no longer accepted'),
  effectOf: z
    .enum(['part', 'run'])
    .optional()
    .describe('run: several foreign parts were fitted, and the effect is not put down to one of them; missing is part'),
  masked: maySay.describe('another part of the run hid what this one did; never read as clean'),
  notice: notice.optional(),
  measured: z.array(reduction).max(50).optional().describe('what was reduced, before and after'),
  starts: z
    .strictObject({
      tried: z.int().min(0).max(10_000).optional(),
      failed: z.int().min(0).max(10_000).optional(),
      after: duration.optional().describe('from the start to the event'),
    })
    .optional(),
  checks: z
    .record(id, z.enum(['pass', 'fail', 'reduced', 'not-tested']))
    .optional()
    .describe('the function list as gone through'),
  calibrated: maySay.describe('calibrated since the piece was fitted, by a step that needs no authorisation'),
  identityMoved: maySay.describe("the host's own identity chip or flex sits on the foreign piece"),
  calibration: z.strictObject(stepTerms).optional().describe('that calibration: who may run it, what it asks for'),
  pairing: pairing.optional().describe('the step by which the part was made known to the software'),
  ...setting,
  interrupted: maySay.describe('broken off before the list was through'),
  corrects: id.optional().describe('the earlier fit this one replaces; the earlier one stays'),
  withdrawn: maySay.describe('with corrects: the earlier fit did not happen'),
  ...sourced,
});

const benchPart = z.strictObject({
  odds: z
    .partialRecord(z.enum(EXPLANATIONS), z.number().min(0).max(1e6))
    .optional()
    .describe('weights of the explanations before any run; those left out keep their defaults'),
  layer: id.optional().describe('parts of one layer are laid open by one opening'),
  open: duration.optional().describe('opening so far that it can be changed; missing is taken from the routes'),
  fit: duration.optional().describe('taking the one out and putting the other in'),
  check: duration.optional().describe('going through its function list'),
  connectors: z
    .array(z.strictObject({ fastener: id, rated: z.int().min(0).max(1_000_000).describe('matings it is rated for') }))
    .max(50)
    .optional()
    .describe('connectors mated at every fit'),
  authorisation: maySay.describe('a step that makes the part known can be taken at this bench'),
  calibration: maySay.describe('a calibration without authorisation can be run at this bench'),
  authorise: duration.optional().describe('that step'),
  calibrate: duration.optional().describe('that calibration'),
  moveIdentity: duration.optional().describe('moving the identity'),
  identity: text.optional().describe('what would have to be moved to move the identity, e.g. a chip on the flex'),
  checks: z.array(id).max(100).optional().describe('its function list; missing is the usual one of its role'),
});

/** What is at hand for swaps: time, firmware, hosts, donors, and what opening and fitting take. A plan reads it. */
export const swapBench = z
  .strictObject({
    minutes: z.number().min(0).max(100_000).optional().describe('bench minutes available'),
    start: duration.optional().describe('starting a specimen up, with one restart'),
    soak: duration.optional().describe('waiting before the list is gone through'),
    close: duration.optional().describe('closing a specimen for the test'),
    update: duration.optional().describe('bringing one specimen to a newer firmware'),
    hides: z
      .number()
      .min(0)
      .max(1)
      .optional()
      .describe('chance that a part that fails stops the device, so that the others of the run are not seen'),
    refitControl: z
      .boolean()
      .optional()
      .describe(
        'is the own part refitted and seen in every specimen before a foreign piece comes in, where the matings allow it; missing is no: it is then made only where it tells most for its time',
      ),
    firmware: z.array(text).max(50).optional().describe('versions at hand, oldest first; there is no way back'),
    hosts: z.array(id).max(50).optional().describe('specimens in the order in which they may be used up'),
    parts: mapOf(benchPart).optional().describe('by part'),
    donors: mapOf(
      z.strictObject({
        part: id.describe('the place it fits'),
        kind: donorKind,
        specimen: id.optional().describe('the specimen whose own part it is'),
        spare: id.optional().describe('the spare as sold that it is'),
        revision: text.optional(),
        homeLock: homeLock.optional(),
        note: text.optional(),
      }),
    )
      .optional()
      .describe('pieces that can be fitted, besides the own parts of the hosts'),
    checks: mapOf(z.strictObject({ name: text, how: text.optional() }))
      .optional()
      .describe('functions to go through, besides the usual ones'),
  })
  .describe('what is at hand for swaps');
