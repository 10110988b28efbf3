using System.Text;
using Nursery.Domain.People;

namespace Nursery.Application.Setup.Lists;

/// <summary>A list as the CSV its import reads: rows in use, the same columns.</summary>
public sealed class ExportSetupList(ShowSetupList show)
{
    public async Task<byte[]> HandleAsync(string list, Actor actor, CancellationToken cancellation = default)
    {
        var page = await show.HandleAsync(list, actor, cancellation);
        var rows = page.Rows.Where(row => row.RetiredOn is null).Select(row => row.Fields);
        return Encoding.UTF8.GetBytes(CsvWriting.Write(page.Info.Columns, rows));
    }
}
