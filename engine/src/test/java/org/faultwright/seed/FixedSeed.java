package org.faultwright.seed;

import net.jqwik.api.lifecycle.AroundPropertyHook;
import net.jqwik.api.lifecycle.PropagationMode;
import net.jqwik.api.lifecycle.PropertyExecutionResult;
import net.jqwik.api.lifecycle.PropertyExecutor;
import net.jqwik.api.lifecycle.PropertyLifecycleContext;

/**
 * Gives every jqwik property that states no seed of its own one that depends on its class and
 * method name alone, so that two runs draw the same values on any machine.
 *
 * <p>{@code -Dfaultwright.seed=N} mixes another number in, to look further afield. jqwik prints the
 * seed beside each failure; a property that failed far afield keeps it as {@code @Property(seed)}.
 */
public final class FixedSeed implements AroundPropertyHook {
  @Override
  public PropagationMode propagateTo() {
    return PropagationMode.ALL_DESCENDANTS;
  }

  /** Outside all hooks that might draw something. */
  @Override
  public int aroundPropertyProximity() {
    return -100;
  }

  @Override
  public PropertyExecutionResult aroundProperty(
      PropertyLifecycleContext context, PropertyExecutor property) {
    if (context.attributes().seed().isEmpty()) {
      String name = context.containerClass().getName() + '#' + context.targetMethod().getName();
      long seed = name.hashCode() + 1_000_003 * Long.getLong("faultwright.seed", 0);
      context.attributes().setSeed(Long.toString(seed));
    }
    return property.execute();
  }
}
