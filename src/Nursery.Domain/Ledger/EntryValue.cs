using System.Text.Json.Serialization;

namespace Nursery.Domain.Ledger;

/// <summary>The content of a ledger entry, one record type a kind.</summary>
[JsonPolymorphic(TypeDiscriminatorPropertyName = "kind")]
[JsonDerivedType(typeof(Receipt), "receipt")]
[JsonDerivedType(typeof(Planned), "planned")]
[JsonDerivedType(typeof(Imported), "imported")]
[JsonDerivedType(typeof(Changed), "changed")]
[JsonDerivedType(typeof(Reserved), "reserved")]
[JsonDerivedType(typeof(Replanned), "replanned")]
[JsonDerivedType(typeof(SetpointChanged), "setpointChanged")]
[JsonDerivedType(typeof(BatchReplanned), "batchReplanned")]
[JsonDerivedType(typeof(Sown), "sown")]
[JsonDerivedType(typeof(Placed), "placed")]
[JsonDerivedType(typeof(Moved), "moved")]
[JsonDerivedType(typeof(Done), "done")]
[JsonDerivedType(typeof(Undo), "undo")]
[JsonDerivedType(typeof(NotYet), "notYet")]
[JsonDerivedType(typeof(Count), "count")]
[JsonDerivedType(typeof(Surface), "surface")]
[JsonDerivedType(typeof(Loss), "loss")]
[JsonDerivedType(typeof(Discarded), "discarded")]
[JsonDerivedType(typeof(Worked), "worked")]
[JsonDerivedType(typeof(TraysShared), "traysShared")]
[JsonDerivedType(typeof(TraysUnshared), "traysUnshared")]
[JsonDerivedType(typeof(TraysDiscarded), "traysDiscarded")]
[JsonDerivedType(typeof(ResowPlanned), "resowPlanned")]
[JsonDerivedType(typeof(TakenOutOfUse), "takenOutOfUse")]
[JsonDerivedType(typeof(GivenBack), "givenBack")]
public abstract record EntryValue
{
    /// <summary>Not overridden itself: JSON would write an override beside the discriminator of the same name.</summary>
    [JsonIgnore]
    public LedgerKind Kind => OwnKind;

    protected abstract LedgerKind OwnKind { get; }
}
