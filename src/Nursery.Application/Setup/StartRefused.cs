namespace Nursery.Application.Setup;

/// <summary>The program cannot start, and why in a sentence for whoever started it.</summary>
public sealed class StartRefused(string sentence, Exception cause) : Exception(sentence, cause);
