namespace Nursery.Past;

/// <summary>What a bench is for.</summary>
public enum PastUse
{
    Heat,
    Warm,
    Cool,
    Hardening,
}
