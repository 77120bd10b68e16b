package org.faultwright.diagnosis;

import static org.assertj.core.api.Assertions.assertThat;

import java.lang.reflect.RecordComponent;
import java.util.Collection;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;

/** Looks at every number in a value made of records and collections. */
final class Numbers {

  private Numbers() {}

  /** Asserts that no number within is NaN or infinite. */
  static void areFinite(Answer answer) {
    look(answer.outlook(), "outlook");
    look(answer.steps(), "steps");
    look(answer.expectedCost(), "expectedCost");
    look(answer.pLeftOut(), "pLeftOut");
    look(answer.advice(), "advice");
    look(answer.findings().standings(), "standings");
  }

  private static void look(Object value, String where) {
    if (value instanceof Double d) {
      assertThat(d).as(where).isFinite();
    } else if (value instanceof OptionalDouble d) {
      d.ifPresent(x -> assertThat(x).as(where).isFinite());
    } else if (value instanceof Optional<?> o) {
      o.ifPresent(x -> look(x, where));
    } else if (value instanceof Map<?, ?> map) {
      map.forEach((k, v) -> look(v, where + "/" + k));
    } else if (value instanceof Collection<?> all) {
      all.forEach(v -> look(v, where + "[]"));
    } else if (value instanceof Record) {
      for (RecordComponent c : value.getClass().getRecordComponents()) {
        look(read(c, value), where + "." + c.getName());
      }
    }
  }

  private static Object read(RecordComponent component, Object value) {
    try {
      component.getAccessor().setAccessible(true);
      return component.getAccessor().invoke(value);
    } catch (ReflectiveOperationException e) {
      throw new AssertionError(e);
    }
  }
}
