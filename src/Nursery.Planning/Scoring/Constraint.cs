namespace Nursery.Planning.Scoring;

/// <summary>Everything a plan may break or has to pay for, each under one name.</summary>
public enum Constraint
{
    // Broken: such a plan cannot be carried out.

    /// <summary>More spaces than there are, or two tray sets on one space on one day.</summary>
    OverCapacity,

    /// <summary>A day on heat below what the seed accepts, or in a zone that is off.</summary>
    TooCold,

    /// <summary>A day on heat above what the seed accepts.</summary>
    TooHot,

    /// <summary>Two setpoints in one zone in one week, or another than a batch was planned for.</summary>
    MixedSetpoints,

    /// <summary>A setpoint the zone must not have, or another than was promised.</summary>
    WrongSetpoint,

    /// <summary>Taken off heat on another day than the daily temperatures bring it up.</summary>
    WrongHeatDays,

    /// <summary>On a bench of a band its crop must not stand in, or on one that is none.</summary>
    WrongBand,

    /// <summary>Grow-on, spacing or hardening of another length than the crop's.</summary>
    WrongStay,

    /// <summary>Ready outside the days worth handing over, sown too early, or beyond the season.</summary>
    OutOfWindow,

    /// <summary>Parts that are not all the trays, or a batch in the plan twice or not at all.</summary>
    NotWhole,

    // Paid, in cents.

    /// <summary>Tray-days ready before due.</summary>
    EarlyReady,

    /// <summary>Tray-days ready after due, and after the last day that is on time.</summary>
    LateReady,

    /// <summary>Tray-days away from the setpoint the crop likes best, by °F.</summary>
    DegreeOff,

    /// <summary>Heat of zones that are on.</summary>
    HeatedBenchDay,

    /// <summary>Zones set to something else than the week before.</summary>
    SetpointChange,

    /// <summary>Zones and benches beyond one of each.</summary>
    SplitBatch,

    /// <summary>Trays without a place.</summary>
    Unplaced,

    // Paid too, reported apart from the cost.

    /// <summary>Runs of spaces beyond one in a zone or on a bench; in the positioned cost.</summary>
    SplitRun,

    /// <summary>Sow days that differ from the plan of today.</summary>
    ChangedSowDay,

    /// <summary>Zones and benches that differ from the plan of today.</summary>
    ExtraMove,

    /// <summary>Trays carried to a bench in another house than their zone's.</summary>
    OtherHouse,
}
