using Nursery.Domain.Refusals;

namespace Nursery.Application.Scenario;

/// <summary>Says of a use case's refusal which line of which file asked for it.</summary>
internal static class RowRefusals
{
    public static async Task<T> TellAsync<T>(CsvRow row, string field, Func<Task<T>> work)
    {
        try
        {
            return await work();
        }
        catch (Refusal refusal)
        {
            row.FailNow(field, refusal.Message);
            throw;
        }
    }
}
