import { CELEX, CONSOLIDATED } from '#schemes/eu-2023-1669/method';
import type { Verdict } from './verdict.ts';

/** Which published texts do a verdict's figures rest on? */
export const SOURCES: Verdict['sources'] = [
  {
    id: 'eu-2023-1669',
    text: `Commission Delegated Regulation (EU) 2023/1669, energy label of smartphones and slate tablets, Annex IV point 5 (repairability index), consolidated text of ${CONSOLIDATED} (CELEX ${CELEX}); a consolidated text is a working document, only the Official Journal is authentic`,
  },
  {
    id: 'eu-2023-1670',
    text: 'Commission Regulation (EU) 2023/1670, ecodesign of smartphones and slate tablets, Annex II B and D 1.1(2)(e): the eleven items of repair information, consolidated text of 20 June 2025',
  },
  {
    id: 'clopper-pearson',
    text: 'Clopper and Pearson 1934, Biometrika 26:404-413: exact interval of a share, for the odds of a way from few tries',
  },
  {
    id: 'niosh-0359',
    text: 'NIOSH Pocket Guide 0359, isopropyl alcohol: flash point, explosion limits, exposure limits',
  },
  {
    id: 'unfasten',
    text: 'Step counter, best-found routes and reachability: own method, described in docs/method of this program',
  },
];
