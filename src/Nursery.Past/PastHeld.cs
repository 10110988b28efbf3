namespace Nursery.Past;

/// <summary>A run of spaces that is taken from a day to the first day it is free again.</summary>
public sealed record PastHeld(string Bench, int FirstSpace, int Spaces, int From, int To);
