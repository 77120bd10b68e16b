package org.faultwright.oracle;

/** There are more worlds than were allowed. */
public final class TooManyWorldsException extends RuntimeException {

  TooManyWorldsException(long most) {
    super("more than " + most + " worlds");
  }
}
