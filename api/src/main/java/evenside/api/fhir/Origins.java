package evenside.api.fhir;

import evenside.schemas.Fault;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import tools.jackson.core.JsonPointer;

/** Where each part of a battery came from in the FHIR payload, so that faults can point there. */
public final class Origins {
  private final Map<String, String> places = new HashMap<>();

  Origins() {}

  /** Notes that what stands at {@code ours} in the battery was read at {@code theirs}. */
  void note(String ours, String theirs) {
    places.put(ours, theirs);
  }

  /** The same faults, each at the place in the payload that is nearest to what it is about. */
  public List<Fault> translate(List<Fault> faults) {
    return faults.stream().map(this::translate).sorted(Fault.ORDER).toList();
  }

  private Fault translate(Fault fault) {
    String ours = fault.pointer().substring(1);
    Fault there =
        Fault.at(
            JsonPointer.compile(theirs(ours)),
            fault.code(),
            fault.detail() + "; read as the battery’s " + (ours.isEmpty() ? "whole" : ours));
    return new Fault(there.pointer(), there.code(), there.detail(), fault.limit(), fault.schema());
  }

  private String theirs(String ours) {
    String place = ours;
    while (!place.isEmpty()) {
      String found = places.get(place);
      if (found != null) {
        return found;
      }
      place = place.substring(0, place.lastIndexOf('/'));
    }
    return "";
  }
}
