namespace Nursery.Web.Components.Pages.Benches;

/// <summary>What plan and fact say of trays on a bench.</summary>
public enum PlanAgainstFact
{
    /// <summary>Reserved and, today, standing there.</summary>
    AsPlanned,

    /// <summary>Reserved; not (yet) there in fact.</summary>
    ReservedOnly,

    /// <summary>Standing where nothing is reserved for it.</summary>
    NotByPlan,

    /// <summary>The same on a heat zone: it costs heat and stretches seedlings.</summary>
    StillOnHeat,
}
