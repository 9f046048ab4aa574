// SPDX-License-Identifier: GPL-3.0-or-later
import { h } from './dom.js';
import type { View } from './view.js';

export const run: View = async (host) => {
    host.append(h('main', {}, 'run'));
    return () => {};
};
