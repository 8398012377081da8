import type { Device } from '#record/device/device';
import type { Fact } from './route-problem.ts';

/** Which fact says that this part is off or this fastener released? */
export const offFact = (id: string, device: Device): Fact =>
  device.fasteners.has(id) ? `released/${id}` : `off/${id}`;
