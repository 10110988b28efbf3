namespace Nursery.Web.Components.Asking;

/// <summary>A file that was chosen, or rows that were pasted.</summary>
/// <param name="Name">Of the file, or what stands for it in sentences.</param>
/// <param name="ReadAsync">Its bytes; refuses what is longer than is read.</param>
public sealed record CsvChoice(string Name, Func<Task<byte[]>> ReadAsync);
