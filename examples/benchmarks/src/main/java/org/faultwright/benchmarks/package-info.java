/** Measurements with JMH; never published. */
package org.faultwright.benchmarks;
