using System.Diagnostics.CodeAnalysis;

namespace Nursery.Data.Cluster;

/// <summary>Why the private PostgreSQL cannot be used, as a sentence for the person who started the program.</summary>
[SuppressMessage("Naming", "CA1710", Justification = "A refusal is named by what it says.")]
public abstract class ClusterRefusal(string sentence, Exception? inner = null) : Exception(sentence, inner);
