namespace Nursery.Agronomy.Growth;

/// <summary>How much cold a seedling grows through.</summary>
public enum Hardiness
{
    Hardy,
    Middle,
    Tender,
}
