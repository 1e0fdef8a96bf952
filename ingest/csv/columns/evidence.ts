import type { CodedReason } from '../../../shared/reason.ts';
import type { EvidenceItem } from '../../../shared/schemas/layout-preview.ts';

/**
 * One thing that was understood about a file, why, and how sure that is. Every one can be corrected by a layout. What was decided and
 * why are codes and values (shared/messages/en/layout-evidence.ts).
 */
export interface Evidence extends EvidenceItem {
  decided: CodedReason;
  because: CodedReason;
}
