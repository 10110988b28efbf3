namespace Nursery.Domain.Sites;

/// <summary>What people read: °F and inches, or °C and centimeters. Stored values are always SI.</summary>
public enum Units
{
    UsCustomary,
    Metric,
}
