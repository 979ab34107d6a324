#!/usr/bin/env node
import('../dist/main.js').then(({ main }) => main());
