/**
 * What format 1 is made of: the forms that values take and the tables of keys. Each form reads a
 * node into a value, reports what is wrong with it, and describes itself as a {@code Shape}, from
 * which the JSON Schemas for editors are written.
 *
 * <p>Entry types: {@code Form}, {@code Block} and {@code Scope}. For the readers of packs and
 * cases; uses {@code pack.yaml}, the records of {@code pack}, {@code measurement} and {@code
 * problem}.
 */
package org.faultwright.pack.format;
