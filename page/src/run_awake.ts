// SPDX-License-Identifier: GPL-3.0-or-later
/* run_awake: the screen stays on while a card is shown. Browsers give this only to pages of this computer or with a certificate;
 * a tablet that comes over the shop's network is told to set it by itself. */

const CANNOT = 'This device may switch its screen off by itself: set it to stay on while you work.';

/** Asks for the screen to stay awake, anew each time that the page is looked at again. tell gets a hint when it cannot, ''
 *  when it does. Call what it returns when the view is left. */
export function stayAwake(tell: (hint: string) => void): () => void {
    let lock: WakeLockSentinel | null = null, left = false;
    const ask = async (): Promise<void> => {
        if (left || document.visibilityState !== 'visible' || (lock && !lock.released)) return;
        if (!('wakeLock' in navigator)) {
            tell(CANNOT);
            return;
        }
        try {
            lock = await navigator.wakeLock.request('screen');
            if (left) await lock.release();
            else tell('');
        } catch {
            tell(CANNOT);
        }
    };
    const seen = (): void => void ask();
    document.addEventListener('visibilitychange', seen);
    void ask();
    return () => {
        left = true;
        document.removeEventListener('visibilitychange', seen);
        void lock?.release();
    };
}
