package org.faultwright.pack;

/** Names a way of provoking a fault that comes and goes: bent, warm, cold, loaded. */
public record ModeId(String value) implements Id {

  /** Nothing provoked: the device as it lies on the bench. */
  public static final ModeId AT_REST = new ModeId("at-rest");

  /**
   * Looking at the parts themselves: every cause that is present counts as acting, even where it
   * comes and goes or is hidden. A crack is seen under the microscope whether it conducts or not.
   */
  public static final ModeId INSPECTION = new ModeId("inspection");

  /**
   * Checks the spelling.
   *
   * @throws IllegalArgumentException when {@code value} is not spelt as {@link Id} says
   */
  public ModeId {
    Id.check(value);
  }

  @Override
  public String toString() {
    return value;
  }
}
