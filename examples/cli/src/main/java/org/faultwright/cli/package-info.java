/** The command line: reads cases and packs, calls the engine, prints text or JSON. */
package org.faultwright.cli;
