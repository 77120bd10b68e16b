/**
 * Several packs of one device family as one pack.
 *
 * <p>Entry type: {@code PackMerge}. May use the records of {@code pack} alone.
 */
package org.faultwright.pack.merge;
