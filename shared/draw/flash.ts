/** How flashing elements are drawn. */

/**
 * One rate for everything. NUREG-0700 Rev 2, 1.3.10-12: one rate of 2 to 3 Hz, half of the time on
 * and half off; WCAG 2.3.1: at most three flashes a second.
 */
export const FLASH = { perSecond: 2, shareOn: 0.5 } as const;

/** The CSS animation; the panel's style sheet uses the same name for it. */
export const FLASHING = `flash ${1 / FLASH.perSecond}s step-end infinite`;
export const FLASH_FRAMES = `@keyframes flash{${100 * FLASH.shareOn}%{opacity:0}}`;
