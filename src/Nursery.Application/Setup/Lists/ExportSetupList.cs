using System.Text;
using Nursery.Domain.People;

namespace Nursery.Application.Setup.Lists;

/// <summary>A list as the CSV its import reads: rows in use, the same columns.</summary>
public sealed class ExportSetupList(ShowSetupList show)
{
    public async Task<byte[]> HandleAsync(string list, Actor actor, CancellationToken cancellation = default)
    {
        var page = await show.HandleAsync(list, actor, cancellation);
        var columns = page.Info.Columns;
        var lines = page.Rows.Where(row => row.RetiredOn is null)
            .Select(row => CsvLine.OfFields(columns.Select(column =>
                column.IsText ? CsvLine.Defused(row.Fields[column.Name]) : row.Fields[column.Name])))
            .Prepend(CsvLine.OfFields(columns.Select(column => column.Name)));
        return Encoding.UTF8.GetBytes(string.Concat(lines));
    }
}
