package org.faultwright.seed;

import static org.assertj.core.api.Assertions.assertThat;

import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.lifecycle.AddLifecycleHook;
import net.jqwik.api.lifecycle.AroundPropertyHook;
import net.jqwik.api.lifecycle.PropertyExecutionResult;
import net.jqwik.api.lifecycle.PropertyExecutor;
import net.jqwik.api.lifecycle.PropertyLifecycleContext;

/** Also proves that the hook is found at all: without it a property has no seed before it runs. */
class FixedSeedProperty {
  @Property(tries = 1)
  @AddLifecycleHook(SeedDependsOnName.class)
  void seed_followsFromTheName_whenNoneIsStated(@ForAll int any) {}

  @Property(tries = 1, seed = "42")
  @AddLifecycleHook(SeedIsKept.class)
  void seed_isKept_whenOneIsStated(@ForAll int any) {}

  static final class SeedDependsOnName implements AroundPropertyHook {
    @Override
    public PropertyExecutionResult aroundProperty(
        PropertyLifecycleContext context, PropertyExecutor property) {
      String name =
          "org.faultwright.seed.FixedSeedProperty#seed_followsFromTheName_whenNoneIsStated";
      long elsewhere = 1_000_003 * Long.getLong("faultwright.seed", 0);
      assertThat(context.attributes().seed()).hasValue(Long.toString(name.hashCode() + elsewhere));
      return property.execute();
    }
  }

  static final class SeedIsKept implements AroundPropertyHook {
    @Override
    public PropertyExecutionResult aroundProperty(
        PropertyLifecycleContext context, PropertyExecutor property) {
      assertThat(context.attributes().seed()).hasValue("42");
      return property.execute();
    }
  }
}
