#!/usr/bin/env node
console.log('not written yet');
