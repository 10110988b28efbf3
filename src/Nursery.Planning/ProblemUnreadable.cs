namespace Nursery.Planning;

/// <summary>The JSON of a problem or plan cannot be read at all.</summary>
public sealed class ProblemUnreadable(string sentence, Exception? inner = null) : Exception(sentence, inner);
