/**
 * CDS Hooks 2.0: {@link evenside.api.cdshooks.ReadinessHook} is the one service on offer, {@link
 * evenside.api.cdshooks.HookRequest} reads a call, {@link evenside.api.cdshooks.DecisionCard} makes
 * a card of a stored decision.
 *
 * <p>A card shows what was decided and recorded; nothing is computed for it. It never suggests,
 * acts or calls itself critical.
 *
 * <p>Source: CDS Hooks 2.0, HL7, cds-hooks.hl7.org/2.0.
 */
@NullMarked
package evenside.api.cdshooks;

import org.jspecify.annotations.NullMarked;
